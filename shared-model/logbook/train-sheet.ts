/**
 * The train sheet: the record of the evening with the items of 49 CFR 228.17(a) as far as a model railroad has them
 * (item list from memory, not seen in the text). Timetable, place and weather no session records; they are written in beside it.
 */
import type { NodeId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from '../session/event.ts';
import type { ClockNow, SessionState, TrainNow } from '../session/state.ts';
import { entriesOf } from '../session/world.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { edgesEntered, lengthOf } from './distance.ts';
import { type Duty, dutyReader } from './duties.ts';
import { type EveningReader, readThrough, retractedEntries } from './pass.ts';
import { type Passing, passingReader } from './passings.ts';
import { distancesFrom, firstNode, placesInOrder } from './track-distance.ts';
import { type Unusual, unusualReader } from './unusual.ts';

/** A train or engine of the evening. */
export interface SheetTrain {
  readonly id: string;
  readonly name: string;
  /** As it was last. */
  readonly lengthMm: Millimetres;
  /** When it was first put on the track. */
  readonly placed: Seconds;
  /** The cabs that had it, in order. */
  readonly cabs: readonly string[];
  /** By blocks reported; limits left out. */
  readonly distanceMm: Millimetres;
}

/** A reporting point; distances by the shortest track, null where no track joins them. */
export interface ReportingPoint {
  readonly place: string;
  readonly fromFirstMm: Millimetres | null;
  /** From the reporting point before it; null for the first. */
  readonly fromBeforeMm: Millimetres | null;
}

export interface TrainSheet {
  /** Who dispatched, by the notes that say so ("Kim dispatches"). */
  readonly dispatchers: readonly Duty[];
  readonly duties: readonly Duty[];
  readonly trains: readonly SheetTrain[];
  readonly points: readonly ReportingPoint[];
  readonly passings: readonly Passing[];
  readonly unusual: readonly Unusual[];
  /** How the railroad's clock stood from each moment on; empty where no ratio was ever set. */
  readonly clocks: readonly { readonly from: Seconds; readonly clock: ClockNow | null }[];
}

/** How far the places are from the first and from each other, in their order along the railroad. */
export function reportingPoints(railroad: Railroad): readonly ReportingPoint[] {
  const places = placesInOrder(railroad);
  const distances = distancesFrom(railroad, firstNode(railroad));
  return places.map(({ id, at }, index) => {
    const before = places[index - 1]?.at[0]?.toward;
    const nearest = (from: ReadonlyMap<NodeId, Millimetres>) =>
      at.map(({ toward }) => from.get(toward)).find((one) => one !== undefined) ?? null;
    return {
      place: id,
      fromFirstMm: nearest(distances),
      fromBeforeMm: before === undefined ? null : nearest(distancesFrom(railroad, before)),
    };
  });
}

class Trains implements EveningReader {
  readonly #seen = new Map<
    TrainId,
    { train: TrainNow; placed: Seconds; cabs: string[]; distanceMm: number }
  >();
  readonly #railroad: Railroad;

  constructor(railroad: Railroad) {
    this.#railroad = railroad;
  }

  take({ before, after, event, counts }: Parameters<EveningReader['take']>[0]): void {
    if (before.trains === after.trains) return;
    for (const [id, train] of entriesOf(after.trains)) {
      const seen = this.#seen.get(id);
      if (seen === undefined && !train.placed) continue;
      const now = seen ?? { train, placed: event.at, cabs: [], distanceMm: 0 };
      now.train = train;
      if (train.cab !== null && now.cabs.at(-1) !== train.cab) now.cabs.push(train.cab);
      this.#seen.set(id, now);
    }
    if (!counts) return;
    for (const { id, edges } of edgesEntered(before, after, event.input)) {
      const seen = this.#seen.get(id);
      if (seen !== undefined) seen.distanceMm += lengthOf(this.#railroad, edges);
    }
  }

  list(): readonly SheetTrain[] {
    return [...this.#seen].map(([id, { train, placed, cabs, distanceMm }]) => ({
      id,
      name: train.name,
      lengthMm: train.length,
      placed,
      cabs,
      distanceMm,
    }));
  }
}

function clockReader(): EveningReader & { readonly clocks: TrainSheet['clocks'][number][] } {
  const clocks: TrainSheet['clocks'][number][] = [];
  return {
    clocks,
    take: ({ before, after, event }) => {
      if (before.clock !== after.clock) clocks.push({ from: event.at, clock: after.clock });
    },
  };
}

/** A reader that makes the sheet of what it was told. */
export function sheetReader(railroad: Railroad): EveningReader & { readonly sheet: () => TrainSheet } {
  const trains = new Trains(railroad);
  const duties = dutyReader();
  const passings = passingReader(railroad);
  const unusual = unusualReader(railroad);
  const clocks = clockReader();
  const readers: readonly EveningReader[] = [trains, duties, passings, unusual, clocks];
  return {
    take: (step) => {
      for (const reader of readers) reader.take(step);
    },
    sheet: () => ({
      dispatchers: duties.dispatchers,
      duties: duties.duties,
      trains: trains.list(),
      points: reportingPoints(railroad),
      passings: passings.passings,
      unusual: unusual.unusual,
      clocks: clocks.clocks,
    }),
  };
}

/** Makes the sheet from the fold: entries taken back stand in no list of unusual events. */
export function trainSheet(
  railroad: Railroad,
  initial: SessionState,
  events: readonly SessionEvent[],
): TrainSheet {
  const reader = sheetReader(railroad);
  readThrough(initial, events, retractedEntries(events), [reader]);
  return reader.sheet();
}
