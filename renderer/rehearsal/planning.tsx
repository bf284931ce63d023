/** What became of the last search for a plan, and what the next one is made with: how long hands and voice take. */
import type { ReactNode } from 'react';
import { planAnswer, plannerEnded } from '../../shared-model/wire/planner.ts';
import { NumberBox } from '../parts/field.tsx';
import type { Rehearsal } from './use-rehearsal.ts';

/** @param others whether plans are there already, from which this one was to differ */
function NoPlan({ answer, others }: { readonly answer: unknown; readonly others: boolean }) {
  const ended = plannerEnded.safeParse(answer);
  if (ended.success && 'fault' in ended.data)
    return <p role="status">It could not be worked out: {ended.data.fault}</p>;
  if (ended.success && 'cancelled' in ended.data && ended.data.best === null)
    return <p role="status">Stopped before a plan was found.</p>;
  const plan = planAnswer.safeParse(ended.success && 'cancelled' in ended.data ? ended.data.best : answer);
  if (plan.success && plan.data.verdict === 'impossible')
    return (
      <p role="status">
        <strong className="rehearsal-verdict">Impossible.</strong> No order of moves brings every train there:
        every one was tried. “Can I?” says which trains lock each other.
      </p>
    );
  if (plan.success && plan.data.verdict === 'planned')
    return (
      <p role="status">
        {ended.success
          ? 'Stopped: this is the best so far.'
          : plan.data.proven
            ? 'Found, and no plan takes less.'
            : 'Found; a better one was not ruled out.'}
      </p>
    );
  return (
    <p role="status">
      <strong className="rehearsal-verdict">Not decided.</strong>{' '}
      {others
        ? 'No plan was found that differs from those below in a way or in who goes first; there may be one all the same.'
        : 'No plan was found in the time; there may be one all the same.'}
    </p>
  );
}

interface PlanningProps {
  readonly rehearsal: Rehearsal;
  /** What else is set here. */
  readonly children?: ReactNode;
}

export function Planning({ rehearsal, children }: PlanningProps) {
  const { options, changeOptions } = rehearsal;
  const { state } = rehearsal.planning;
  return (
    <div className="rehearsal-planning">
      {state.is === 'wrong' ? <p role="alert">{state.says}</p> : null}
      {state.is === 'answered' ? <NoPlan answer={state.answer} others={rehearsal.plans.length > 0} /> : null}
      <details className="rehearsal-options">
        <summary>Hands and voice</summary>
        <div className="rehearsal-acts">
          <NumberBox
            label="a throw takes"
            value={options.throwSeconds}
            least={0}
            most={60}
            unit="s"
            onChange={(throwSeconds) => changeOptions({ throwSeconds })}
          />
          <NumberBox
            label="most throws in a minute"
            value={options.throwsPerMinute}
            least={1}
            most={60}
            onChange={(throwsPerMinute) => changeOptions({ throwsPerMinute: Math.round(throwsPerMinute) })}
          />
          <NumberBox
            label="words before a move"
            value={options.talkSeconds}
            least={0}
            most={120}
            unit="s"
            onChange={(talkSeconds) => changeOptions({ talkSeconds })}
          />
          <NumberBox
            label="lost at a start"
            value={options.startSeconds}
            least={0}
            most={120}
            unit="s"
            onChange={(startSeconds) => changeOptions({ startSeconds })}
          />
          <NumberBox
            label="kept between"
            value={options.marginSeconds}
            least={0}
            most={60}
            unit="s"
            onChange={(marginSeconds) => changeOptions({ marginSeconds })}
          />
        </div>
      </details>
      {children}
    </div>
  );
}
