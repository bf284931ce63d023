/** What an evening begins with: as the last one on that railroad was left, and the phase checks that were kept since. */
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { carryOver } from '../../shared-model/session/carry-over.ts';
import type { CarriedOver } from '../../shared-model/session/initial.ts';
import { CHECK_KIND, REPLUGGED_KIND, withKept } from '../../shared-model/session/kept-checks.ts';
import type { Clock } from './clock.ts';
import { readDocument } from './log/documents.ts';
import { keptOf } from './log/kept.ts';
import type { ReadableLog } from './log/log.ts';
import { lastSessionOn } from './log/sessions.ts';
import { stateAt } from './log/state-at.ts';

/**
 * @param railroad its number in the library
 * @param document the railroad as it is now
 * @returns moments are seconds before now; a check or plug that was kept before the last evening opened was carried into that one
 */
export function carriedNow(
  log: ReadableLog,
  clock: Clock,
  railroad: number,
  document: RailroadDocument,
): CarriedOver & Required<Pick<CarriedOver, 'checks'>> {
  const now = clock.wall();
  const indexed = indexRailroad(document);
  const last = lastSessionOn(log, railroad);
  const since = last === null ? Number.NEGATIVE_INFINITY : Date.parse(last.openedAt);
  const kept = [CHECK_KIND, REPLUGGED_KIND]
    .flatMap((kind) => keptOf(log, kind))
    .map(({ at, value }) => ({ moment: Date.parse(at), value }))
    .filter(({ moment }) => moment >= since)
    // The wall clock may have been set back: nothing that was measured is from tomorrow.
    .map(({ moment, value }) => ({ at: Math.min((moment - now) / 1000, 0), value }));
  const left =
    last === null
      ? { checks: [] }
      : carryOver(
          indexed,
          stateAt(log, last.id, last.entries),
          indexRailroad(readDocument(log, last.railroadHash)),
          (now - since) / 1000,
        );
  return { ...left, checks: withKept(indexed, left.checks, String(railroad), kept) };
}
