/**
 * What makes two plans really different ones: another way of some train, or another train first in some block. Other times of the same
 * are the same plan to whoever carries it out.
 */
import type { PlanMove } from '../plan-answer.ts';
import { must } from '../track-table.ts';
import type { Timer } from './insert-trains.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';

interface Leaving {
  readonly run: TimedRun;
  /** Seconds at which its head departs. */
  readonly at: number;
}

/** The ways of all trains, and for each block the trains in the order in which they come into it. */
function likeness({ movers, table }: PlanTask, leavings: readonly Leaving[]): string {
  const ways = movers.map(() => '');
  const comings: [at: number, resource: number, mover: number][] = [];
  for (const { run, at } of leavings) {
    ways[run.mover] += ` ${run.movement.spots.join()}`;
    for (const { resource, after } of run.enters) comings.push([at + after, resource, run.mover]);
  }
  const blocks: string[] = Array.from({ length: table.resources }, () => '');
  for (const [, resource, mover] of comings.sort(([one], [other]) => one - other))
    blocks[resource] += ` ${mover}`;
  return `${ways.join(';')}|${blocks.join(';')}`;
}

/** When two times are one, as plans are given rounded. */
const A_MOMENT = 0.002;

/** The runs that the moves of a plan are; null where they are none of this task's. */
function leavingsOf(
  { movers, table, options }: PlanTask,
  moves: readonly PlanMove[],
): readonly Leaving[] | null {
  const leavings: Leaving[] = [];
  for (const mover of movers) {
    let standing = 0;
    let ended = Number.NEGATIVE_INFINITY;
    for (const move of moves.filter(({ train }) => train === mover.id)) {
      let at = move.start + (move.start <= ended + A_MOMENT ? 0 : options.startSeconds);
      let place = 0;
      while (place < move.edges.length) {
        const run = mover
          .runsFrom(standing)
          .find(({ movement: { spots } }) =>
            spots.every((spot, index) => must(table.spots[spot]).edge === move.edges[place + index]),
          );
        if (run === undefined || run.movement.spots.length === 0) return null;
        leavings.push({ run, at });
        at += run.seconds;
        place += run.movement.spots.length;
        standing = run.to;
      }
      ended = move.end;
    }
  }
  return leavings;
}

/**
 * A timer that times no order that comes to the same as one of these plans, so that no search finds it again.
 *
 * @param plans the moves of each, in order of time; those that are none of this task's bar nothing
 */
export function timerUnlike(task: PlanTask, timer: Timer, plans: readonly (readonly PlanMove[])[]): Timer {
  const known = new Set(
    plans.flatMap((moves) => {
      const leavings = leavingsOf(task, moves);
      return leavings === null ? [] : likeness(task, leavings);
    }),
  );
  if (known.size === 0) return timer;
  return (order, present) => {
    const timetable = timer(order, present);
    // An order without some of the trains is on its way to a whole one.
    if (timetable === null || present !== undefined) return timetable;
    const leavings = order.map((run, place) => ({ run, at: must(timetable.departs[place]) }));
    return known.has(likeness(task, leavings)) ? null : timetable;
  };
}
