/** A first plan: trains fitted in one by one in some order of priority; where one finds no way, it goes first the next time. */
import { type Draw, shuffled } from '../../chance.ts';
import { must } from '../track-table.ts';
import { drawWishes, insertTrains, type Timer } from './insert-trains.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import type { Timetable } from './timetable.ts';

export interface TimedOrder {
  readonly order: readonly TimedRun[];
  readonly timetable: Timetable;
}

/**
 * Tries one order of priority.
 *
 * @returns the plan; or the mover that found no way
 */
function tryPriority(
  task: PlanTask,
  timer: Timer,
  priority: readonly number[],
  wishes: ReturnType<typeof drawWishes>,
): TimedOrder | { readonly stuck: number } {
  const inserted = insertTrains(task, timer, [], [], priority, wishes);
  if (!inserted.ok) return { stuck: inserted.mover };
  const timetable = timer(inserted.order);
  return timetable === null ? { stuck: must(priority.at(-1)) } : { order: inserted.order, timetable };
}

/**
 * Looks for a first plan. The longest way goes first at first; then the priorities are mended where they failed, and now and then
 * drawn anew.
 *
 * @param tries how many priorities at most
 * @param shouldStop asked before each
 */
export function firstPlan(
  task: PlanTask,
  timer: Timer,
  draw: Draw,
  tries: number,
  shouldStop: () => boolean,
): TimedOrder | null {
  const all = task.movers.map((_, index) => index);
  const left = (mover: number): number => must(must(task.movers[mover]).secondsLeft[0]);
  let priority = [...all].sort((one, other) => left(other) - left(one));
  for (let attempt = 0; attempt < tries && !(attempt > 0 && shouldStop()); attempt += 1) {
    const wishes = drawWishes(draw, attempt < 4 ? 0 : 40);
    const outcome = tryPriority(task, timer, priority, {
      ...wishes,
      mindTheRest: attempt === 0 || wishes.mindTheRest,
    });
    if ('order' in outcome) return outcome;
    const { stuck } = outcome;
    priority =
      attempt % 6 === 5 ? shuffled(all, draw) : [stuck, ...priority.filter((mover) => mover !== stuck)];
  }
  return null;
}
