/** Fits trains, one after the other, into an order of runs of other trains. */
import type { Draw } from '../../chance.ts';
import type { Seconds } from '../../units.ts';
import { must } from '../track-table.ts';
import { type Departure, intervalSearch, type SearchWishes } from './interval-search.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import type { timetabler } from './timetable.ts';
import { visitsOf } from './visits.ts';

export type Timer = ReturnType<typeof timetabler>;

/** Labels of one interval search; a railroad of 400 blocks needs some thousands at most. */
const MOST_LABELS = 20_000;

/** Both orders by the time at which each run leaves; of the same moment the older run first. */
function merged(
  order: readonly TimedRun[],
  departs: Float64Array,
  way: readonly Departure[],
): readonly TimedRun[] {
  const all = [...order.map((run, place): Departure => ({ run, at: departs[place] as number })), ...way];
  return all.sort((one, other) => one.at - other.at).map(({ run }) => run);
}

/** How long a train that is not planned yet is taken to need until it has left each resource under it; Infinity: it may stay. */
function leavingTimes(
  task: PlanTask,
  mover: number,
): readonly { readonly resource: number; readonly till: Seconds }[] {
  const { under, runsFrom, notBefore } = must(task.movers[mover]);
  const { throwSeconds, marginSeconds } = task.options;
  return under(0).map((resource) => {
    const clears = runsFrom(0).map(
      (run) => run.clears.find((one) => one.resource === resource)?.after ?? run.seconds * 2,
    );
    const least = clears.length === 0 ? Number.POSITIVE_INFINITY : Math.min(...clears);
    return { resource, till: notBefore + throwSeconds + marginSeconds * 2 + least };
  });
}

export interface InsertWishes extends SearchWishes {
  /** Whether trains that are still to be fitted in are taken to stand where they are for a while. */
  readonly mindTheRest: boolean;
}

export type Inserted =
  | { readonly ok: true; readonly order: readonly TimedRun[] }
  /** The train for which there was no way. */
  | { readonly ok: false; readonly mover: number };

/**
 * Fits trains in, each as early as the ones before leave it.
 *
 * @param present movers of the order (also those that do not move in it)
 * @param movers those to fit in, first come first served
 */
export function insertTrains(
  task: PlanTask,
  timer: Timer,
  order: readonly TimedRun[],
  present: readonly number[],
  movers: readonly number[],
  wishes: InsertWishes,
): Inserted {
  let now = order;
  const here = new Set(present);
  for (const [place, mover] of movers.entries()) {
    const timetable = timer(now, (one) => here.has(one));
    if (timetable === null) return { ok: false, mover };
    const rest = wishes.mindTheRest
      ? movers.slice(place + 1).flatMap((other) => leavingTimes(task, other))
      : [];
    const visits = visitsOf(task, now, timetable, [...here], rest);
    const way = intervalSearch(task, mover, visits, wishes);
    if (way === null) return { ok: false, mover };
    now = merged(now, timetable.departs, way);
    here.add(mover);
  }
  return { ok: true, order: now };
}

/** Wishes with a dislike of some runs drawn at random, so that other ways are tried; `strength` in seconds, 0 for none. */
export function drawWishes(draw: Draw, strength: Seconds): InsertWishes {
  const dislikes = new Map<TimedRun, Seconds>();
  return {
    most: MOST_LABELS,
    mindTheRest: draw() < 0.5,
    dislike: (run) => {
      if (strength === 0) return 0;
      const known = dislikes.get(run);
      if (known !== undefined) return known;
      const drawn = draw() < 0.15 ? draw() * strength : 0;
      dislikes.set(run, drawn);
      return drawn;
    },
  };
}
