/** Moments of an evening found without reading it: by time, by refusal or alarm, and how its entries lie in time. */

import { retractedBy } from '../../../shared-model/logbook/pass.ts';
import type { Outline, OutlineBin } from '../../../shared-model/wire/evening-calls.ts';
import { eventOf, type StoredEvent } from './events.ts';
import type { ReadableLog } from './log.ts';

/** Seconds of an entry; 0 before the first. */
function atOf(log: ReadableLog, session: number, entry: number): number {
  const at = log.prepare('SELECT at FROM events WHERE session = ? AND entry = ?').pluck().get(session, entry);
  return Number(at ?? 0);
}

/**
 * The newest entry at or before a moment, in seconds since the evening was opened; 0 where there is none.
 * Times never go back in a log, so a binary search finds it.
 *
 * @param entries how many the evening has
 */
export function entryAt(log: ReadableLog, session: number, entries: number, at: number): number {
  const time = log.prepare('SELECT at FROM events WHERE session = ? AND entry = ?').pluck();
  let low = 0;
  let high = entries;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (Number(time.get(session, middle)) <= at) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The next refusal or alarm after an entry, or the last before it; null where there is none. */
export function markFrom(
  log: ReadableLog,
  session: number,
  entry: number,
  direction: 'next' | 'before',
): number | null {
  const found = log
    .prepare(
      direction === 'next'
        ? "SELECT entry FROM events WHERE session = ? AND outcome <> 'done' AND entry > ? ORDER BY entry LIMIT 1"
        : "SELECT entry FROM events WHERE session = ? AND outcome <> 'done' AND entry < ? ORDER BY entry DESC LIMIT 1",
    )
    .pluck()
    .get(session, entry);
  return found === undefined ? null : Number(found);
}

/** The entries of an evening that were taken back later. */
export function retractedIn(log: ReadableLog, session: number): ReadonlySet<number> {
  const found = log
    .prepare<[number], StoredEvent>(
      `SELECT * FROM events WHERE session = ? AND instr(json, '"do":"retract"') > 0 ORDER BY entry`,
    )
    .all(session);
  return new Set(
    found.flatMap((stored) => {
      const entry = retractedBy(eventOf(stored));
      return entry === null ? [] : [entry];
    }),
  );
}

/**
 * How the entries of an evening lie in time, in bins of as many entries each.
 *
 * @param entries how many the evening has
 * @param bins at most so many
 */
export function outlineOf(log: ReadableLog, session: number, entries: number, bins: number): Outline {
  const count = Math.min(bins, entries);
  const ends = Array.from({ length: count }, (_, index) => Math.floor(((index + 1) * entries) / count));
  const marked = log
    .prepare<[number], { entry: number; outcome: string }>(
      "SELECT entry, outcome FROM events WHERE session = ? AND outcome <> 'done' ORDER BY entry",
    )
    .all(session);
  const made = ends.map((to) => ({ to, at: atOf(log, session, to), refusals: 0, alarms: 0 }));
  let bin = 0;
  for (const { entry, outcome } of marked) {
    while (bin < made.length - 1 && (ends[bin] ?? 0) < entry) bin += 1;
    const here = made[bin];
    if (here === undefined || entry > here.to) break;
    if (outcome === 'refused') here.refusals += 1;
    else here.alarms += 1;
  }
  return { bins: made satisfies OutlineBin[] };
}
