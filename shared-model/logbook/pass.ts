/** One pass over an evening for all who want to know something of it: each reader is told every entry with the state before and after it. */
import type { SessionEvent } from '../session/event.ts';
import { evolve } from '../session/fold.ts';
import type { SessionState } from '../session/state.ts';

/** An entry as a reader is told it. */
export interface Step {
  readonly before: SessionState;
  readonly after: SessionState;
  readonly event: SessionEvent;
  /** False for an entry that was taken back later: it counts in nothing, but the state was shown as it says. */
  readonly counts: boolean;
}

export interface EveningReader {
  take(step: Step): void;
}

/** The entry that an event takes back; null for any other event. */
export const retractedBy = ({ input, outcome }: SessionEvent): number | null =>
  input.do === 'retract' && outcome !== 'refused' ? input.entry : null;

/** The entries that were taken back. */
export function retractedEntries(events: Iterable<SessionEvent>): ReadonlySet<number> {
  const entries = new Set<number>();
  for (const event of events) {
    const entry = retractedBy(event);
    if (entry !== null) entries.add(entry);
  }
  return entries;
}

/** Tells readers one entry. */
export function tellReaders(
  readers: readonly EveningReader[],
  before: SessionState,
  after: SessionState,
  event: SessionEvent,
  retracted: ReadonlySet<number>,
): void {
  const step = { before, after, event, counts: !retracted.has(event.entry) };
  for (const reader of readers) reader.take(step);
}

/**
 * Tells readers a stretch of an evening.
 *
 * @param state before the first of `events`
 * @param retracted of the whole evening, not of the stretch alone
 * @returns the state after the last
 */
export function readThrough(
  state: SessionState,
  events: Iterable<SessionEvent>,
  retracted: ReadonlySet<number>,
  readers: readonly EveningReader[],
): SessionState {
  let before = state;
  for (const event of events) {
    const after = evolve(before, event);
    tellReaders(readers, before, after, event, retracted);
    before = after;
  }
  return before;
}
