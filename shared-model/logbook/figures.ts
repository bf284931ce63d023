/** The figures of an evening, from the fold alone: who ran what, how far, who waited for whom, what was refused. */
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from '../session/event.ts';
import type { SessionState } from '../session/state.ts';
import type { Seconds } from '../units.ts';
import { Count } from './count.ts';
import type { BlockFigures, EveningFigures, RunFigures } from './figure-types.ts';
import { type EveningReader, readThrough, retractedEntries } from './pass.ts';
import type { Tally } from './tally.ts';

const runFigures = (tally: Tally): readonly RunFigures[] =>
  tally.ids().map((id) => ({
    id,
    seconds: tally.of(id, 'seconds'),
    distanceMm: tally.of(id, 'distanceMm'),
    moves: tally.of(id, 'moves'),
    handOffs: tally.of(id, 'handOffs'),
    waitSeconds: tally.of(id, 'waitSeconds'),
    overrides: tally.of(id, 'overrides'),
    refusals: tally.of(id, 'refusals'),
    refusalCodes: tally.beginning(id, 'refusal:'),
    alarms: tally.of(id, 'alarms'),
    alarmCodes: tally.beginning(id, 'alarm:'),
  }));

const blockFigures = (tally: Tally, id: string, waited: Seconds): BlockFigures => ({
  id,
  occupiedSeconds: tally.of(id, 'occupiedSeconds'),
  heldSeconds: tally.of(id, 'heldSeconds'),
  distanceMm: tally.of(id, 'distanceMm'),
  moves: tally.of(id, 'moves'),
  handOffs: tally.of(id, 'handOffs'),
  throws: tally.of(id, 'throws'),
  refusals: tally.of(id, 'refusals'),
  alarms: tally.of(id, 'alarms'),
  waitSeconds: tally.of(id, 'waitSeconds'),
  waitShare: waited === 0 ? 0 : tally.of(id, 'waitSeconds') / waited,
});

function figuresOf(railroad: Railroad, count: Count): EveningFigures {
  const waits = [...count.waits.values()].toSorted((a, b) => b.seconds - a.seconds);
  const waited = waits.reduce((sum, { seconds }) => sum + seconds, 0);
  return {
    seconds: count.seconds,
    runningSeconds: count.runningSeconds,
    people: runFigures(count.people),
    cabs: runFigures(count.cabs),
    trains: runFigures(count.trains),
    blocks: railroad.document.blocks.map(({ id }) => blockFigures(count.blocks, id, waited)),
    waits,
    refusals: count.all.beginning('', 'refusal:'),
    alarms: count.all.beginning('', 'alarm:'),
    overrides: count.overrides,
    throwsPerMinute: Array.from(
      { length: Math.floor(count.seconds / 60) + 1 },
      (_, minute) => count.throwsByMinute.get(minute) ?? 0,
    ),
  };
}

/** A reader that works out the figures of what it was told. */
export function figuresReader(
  railroad: Railroad,
): EveningReader & { readonly figures: () => EveningFigures } {
  const count = new Count(railroad);
  return { take: (step) => count.take(step), figures: () => figuresOf(railroad, count) };
}

/**
 * Works out the figures of an evening.
 *
 * Time is counted in the state that was shown then; an entry that was taken back counts in no number.
 *
 * @param initial the state before the first event
 * @param events all of them, in the order of the log
 */
export function eveningFigures(
  railroad: Railroad,
  initial: SessionState,
  events: readonly SessionEvent[],
): EveningFigures {
  const reader = figuresReader(railroad);
  readThrough(initial, events, retractedEntries(events), [reader]);
  return reader.figures();
}

/**
 * How much of their time the hands needed for throws, minute by minute.
 *
 * @param throwSeconds time of one throw
 * @returns percentages; above 100 the hands could not have kept up
 */
export const handsLoads = (throwsPerMinute: readonly number[], throwSeconds: Seconds): readonly number[] =>
  throwsPerMinute.map((throws) => Math.round((throws * throwSeconds * 100) / 60));
