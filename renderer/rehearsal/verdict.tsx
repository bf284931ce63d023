/** "Can I?": safe with the order that proves it, gridlock with who locks whom, or undecided with the effort spent. Never a guess. */
import { USUAL_MEGABYTES } from '../../shared-model/planning/memory.ts';
import { plannerEnded, safeVerdict } from '../../shared-model/wire/planner.ts';
import { Act } from '../parts/act.tsx';
import type { JobState } from './use-job.ts';
import type { Rehearsal } from './use-rehearsal.ts';
import { blockName, trainWords } from './words.ts';

/** States of the usual effort, about a second; each further look has so many times as many. */
const USUAL_STATES = 3_000_000;
const FURTHER = 8;
const MOST_STATES = 100_000_000;

function Answer({ rehearsal, answer }: { readonly rehearsal: Rehearsal; readonly answer: unknown }) {
  const { railroad } = rehearsal.origin;
  const ended = plannerEnded.safeParse(answer);
  if (ended.success)
    return (
      <p role="status">
        {'fault' in ended.data ? `It could not be worked out: ${ended.data.fault}` : 'Stopped: not decided.'}
      </p>
    );
  const parsed = safeVerdict.safeParse(answer);
  if (!parsed.success) return <p role="status">The host answered with something unknown.</p>;
  const { verdict, witness = [], locked, states, isFull } = parsed.data;
  const effort = `${states.toLocaleString('en')} ${states === 1 ? 'state' : 'states'} looked at`;
  if (verdict === 'safe')
    return (
      <>
        <p role="status">
          <strong className="rehearsal-verdict">Safe.</strong> One train at a time, this order brings every
          train there ({effort}):
        </p>
        {witness.length === 0 ? (
          <p>Every train is there already.</p>
        ) : (
          <ol className="rehearsal-witness">
            {witness.map(({ train, to }, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a run is its place in the order
              <li key={index}>
                {trainWords(railroad, train)} to {blockName(railroad, to)}
              </li>
            ))}
          </ol>
        )}
      </>
    );
  if (verdict === 'gridlock')
    return (
      <p role="status">
        <strong className="rehearsal-verdict" data-wrong>
          Gridlock.
        </strong>{' '}
        {locked?.trains.map((train) => trainWords(railroad, train)).join(', ')}{' '}
        {(locked?.trains.length ?? 0) > 1 ? 'lock each other in' : 'cannot get there from'}{' '}
        {locked?.blocks.map((block) => blockName(railroad, block)).join(', ')}: no order of moves without a
        reversal brings every train to where it is to end up ({effort}).
      </p>
    );
  if (isFull === true)
    return (
      <p role="status">
        <strong className="rehearsal-verdict">Not decided.</strong> {effort}: they fill the {USUAL_MEGABYTES}{' '}
        MB that one question may have, so that to look further would come to the same. It may be safe or not;
        with fewer trains it may be decided.
      </p>
    );
  const next = Math.min(MOST_STATES, Math.max(states, USUAL_STATES) * FURTHER);
  return (
    <>
      <p role="status">
        <strong className="rehearsal-verdict">Not decided.</strong> {effort}: neither an order was found, nor
        that there is none. It may be safe or not.
      </p>
      <Act kind="calm" onPress={() => rehearsal.askSafe(next)}>
        Look further
      </Act>
    </>
  );
}

export function Verdict({ rehearsal }: { readonly rehearsal: Rehearsal }) {
  const { safe } = rehearsal;
  switch (safe.state.is) {
    case 'idle':
    case 'working':
      return null;
    case 'wrong':
      return <p role="alert">{safe.state.says}</p>;
    case 'answered':
      return <Answer rehearsal={rehearsal} answer={safe.state.answer} />;
  }
}

/** The blocks that lock the trains in the last answer. */
export function lockedBlocks(state: JobState): readonly string[] {
  if (state.is !== 'answered') return [];
  const parsed = safeVerdict.safeParse(state.answer);
  return parsed.success ? (parsed.data.locked?.blocks ?? []) : [];
}

export const SAFE_EFFORT = USUAL_STATES;
