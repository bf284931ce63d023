/**
 * A first plan: a witness by priorities on the track alone, timed with the hands and the voice; where the knobs forbid every one of
 * those, trains fitted in one by one between the throws of the ones before.
 */
import { type Draw, shuffled } from '../../chance.ts';
import { type SafeRun, searchByPriority } from '../safe-state/prioritized.ts';
import { must } from '../track-table.ts';
import { drawWishes, insertTrains, type Timer } from './insert-trains.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import type { Timetable } from './timetable.ts';

export interface TimedOrder {
  readonly order: readonly TimedRun[];
  readonly timetable: Timetable;
}

/** A witness with its times; null where the knobs forbid what one train at a time could do. */
export function timedWitness(task: PlanTask, timer: Timer, runs: readonly SafeRun[]): TimedOrder | null {
  const at = task.movers.map(() => 0);
  const order = runs.map(({ mover, movement }) => {
    const all = must(task.movers[mover]).runsFrom(must(at[mover]));
    const run = must(all.find((one) => one.movement === movement));
    at[mover] = run.to;
    return run;
  });
  const timetable = timer(order);
  return timetable === null ? null : { order, timetable };
}

/**
 * Looks for a plan by the track alone.
 *
 * @param tries how many orders of priority at most
 * @param shouldStop asked before each but the first
 */
export function planByTrack(
  task: PlanTask,
  timer: Timer,
  draw: Draw,
  tries: number,
  shouldStop: () => boolean,
): TimedOrder | null {
  let found: TimedOrder | null = null;
  const accept = (runs: readonly SafeRun[]): boolean => {
    found = timedWitness(task, timer, runs);
    return found !== null;
  };
  const { movers, table, memory } = task;
  searchByPriority({ movers, resources: table.resources, memory }, draw, {
    tries,
    accept,
    shouldStop,
  });
  return found;
}

/**
 * Looks for a plan by fitting trains in between the throws of others. The longest way goes first at first; then the priorities are
 * mended where they failed, and now and then drawn anew.
 *
 * @param tries how many priorities at most
 * @param shouldStop asked before each but the first
 */
export function planByHands(
  task: PlanTask,
  timer: Timer,
  draw: Draw,
  tries: number,
  shouldStop: () => boolean,
): TimedOrder | null {
  const all = task.movers.map((_, index) => index);
  const left = (mover: number): number => must(task.movers[mover]).timeLeft(0);
  let priority = [...all].sort((one, other) => left(other) - left(one));
  for (let attempt = 0; attempt < tries && !(attempt > 0 && shouldStop()); attempt += 1) {
    const wishes = drawWishes(draw, attempt < 4 ? 0 : 40);
    const mindTheRest = attempt === 0 || wishes.mindTheRest;
    const inserted = insertTrains(task, timer, [], [], priority, { ...wishes, mindTheRest });
    const timetable = inserted.ok ? timer(inserted.order) : null;
    if (inserted.ok && timetable !== null) return { order: inserted.order, timetable };
    const stuck = inserted.ok ? must(priority.at(-1)) : inserted.mover;
    priority =
      attempt % 6 === 5 ? shuffled(all, draw) : [stuck, ...priority.filter((mover) => mover !== stuck)];
  }
  return null;
}
