/** What the planner is at, seen and ended from every sheet: by its button, which comes next after the one that asked, or by Esc. */
import { Act } from '../parts/act.tsx';
import type { Job } from './use-job.ts';
import { type Rehearsal, SEARCH_SECONDS } from './use-rehearsal.ts';

interface Work {
  readonly key: string;
  readonly job: Job;
  readonly says: string;
  readonly stop: string;
}

const worksOf = ({ safe, planning, capacity }: Rehearsal): readonly Work[] =>
  [
    { key: 'safe', job: safe, says: 'Looking whether every train can get there.', stop: 'Stop looking' },
    {
      key: 'plan',
      job: planning,
      says: `Looking for an order, ${SEARCH_SECONDS} s at most.`,
      stop: 'Stop, take the best so far',
    },
    {
      key: 'capacity',
      job: capacity,
      says: `Counting trains, ${SEARCH_SECONDS} s at most.`,
      stop: 'Stop counting',
    },
  ].filter(({ job }) => job.state.is === 'working');

/** Ends all that the planner is at. */
export function stopWork(rehearsal: Rehearsal): void {
  for (const { job } of worksOf(rehearsal)) void job.cancel();
}

export function Working({ rehearsal }: { readonly rehearsal: Rehearsal }) {
  return worksOf(rehearsal).map(({ key, job, says, stop }) => (
    <div key={key} className="rehearsal-working">
      <Act kind="calm" keyName="Esc" onPress={() => void job.cancel()}>
        {stop}
      </Act>
      <span role="status">{says}</span>
      {/* Told four times a second: a screen reader is not to be flooded with it. */}
      <span className="rehearsal-so-far">{job.state.is === 'working' ? job.state.says : ''}</span>
    </div>
  ));
}
