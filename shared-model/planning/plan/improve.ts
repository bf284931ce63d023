/**
 * Makes a plan better as long as it may: takes a few trains out and fits them in anew (large-neighbourhood search), and moves single
 * runs about in the order, so that the hands and the blocks are had by others first. Worse orders are taken now and then, less and less.
 */
import { type Draw, shuffled } from '../../chance.ts';
import { must } from '../track-table.ts';
import type { TimedOrder } from './first-plan.ts';
import { fitIn } from './fit-in.ts';
import { drawWishes, insertTrains, type Timer } from './insert-trains.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import { withRunAhead, withRunBehind, withRunMoved, withTrainMoved } from './reorder.ts';

/** Which trains to take out: one that loses much, or any, and others at random. */
function pickTrains(task: PlanTask, now: TimedOrder, draw: Draw): readonly number[] {
  const movers = task.movers.map((_, index) => index);
  const count = Math.min(movers.length, 1 + Math.floor(draw() * 4));
  const drawn = shuffled(movers, draw);
  if (draw() < 0.5) return drawn.slice(0, count);
  const lost = (mover: number): number =>
    (now.timetable.arrives[mover] as number) - must(task.movers[mover]).timeLeft(0);
  const worst = drawn.reduce((one, other) => (lost(other) * draw() > lost(one) * draw() ? other : one));
  return shuffled([worst, ...drawn.filter((mover) => mover !== worst).slice(0, count - 1)], draw);
}

/** Takes some trains out and fits them in between the times of the others, one by one. */
function refitted(task: PlanTask, timer: Timer, now: TimedOrder, draw: Draw): readonly TimedRun[] | null {
  const out = pickTrains(task, now, draw);
  const rest = now.order.filter(({ mover }) => !out.includes(mover));
  const present = task.movers.map((_, index) => index).filter((mover) => !out.includes(mover));
  const wishes = drawWishes(draw, draw() < 0.4 ? 40 : 0);
  const inserted = insertTrains(task, timer, rest, present, out, wishes);
  return inserted.ok ? inserted.order : null;
}

/** Takes some trains out and fits them in anywhere in the order, whatever that delays. */
function pushedIn(task: PlanTask, timer: Timer, now: TimedOrder, draw: Draw): readonly TimedRun[] | null {
  const out = pickTrains(task, now, draw);
  const present = new Set(task.movers.map((_, index) => index).filter((mover) => !out.includes(mover)));
  const { dislike } = drawWishes(draw, draw() < 0.4 ? 40 : 0);
  let order: readonly TimedRun[] | null = now.order.filter(({ mover }) => !out.includes(mover));
  for (const mover of out) {
    const timetable = timer(order, (one) => present.has(one));
    if (timetable === null) return null;
    order = fitIn(task, order, timetable, present, mover, { dislike, delayWeight: draw() * 2 });
    if (order === null) return null;
    present.add(mover);
  }
  return order;
}

export interface Improvement {
  /** Asked after every change tried. */
  shouldStop(): boolean;
  /** Told of every better plan. */
  onBetter(better: TimedOrder): void;
  /** No smaller total is possible: stop when it is reached. */
  readonly leastTotal: number;
  /** Changes to try without a better plan before giving up. */
  readonly patience: number;
}

/** Chances of the kinds of change; a refit costs far more than a shift, and finds far more. */
const REFIT_IN_HUNDRED = 25;
/** So many runs are timed, in whole orders, to put the runs of a refit into a better order. */
const POLISH_RUNS = 500;

/** The same runs in another order, a little or a lot of it. */
function reordered(task: PlanTask, now: TimedOrder, draw: Draw): readonly TimedRun[] | null {
  const kind = draw();
  if (kind < 0.35) return withRunMoved(now.order, draw);
  if (kind < 0.65) return withTrainMoved(now.order, draw);
  return kind < 0.85 ? withRunAhead(task, now.order, draw) : withRunBehind(task, now.order, draw);
}

/** Trains fitted in anew, and what was found put into a better order, since it can seldom be judged before. */
function fittedAnew(task: PlanTask, timer: Timer, now: TimedOrder, draw: Draw): TimedOrder | null {
  const order = draw() < 0.4 ? refitted(task, timer, now, draw) : pushedIn(task, timer, now, draw);
  let best = order === null ? null : timed(timer, order);
  if (best === null) return null;
  for (let left = Math.floor(POLISH_RUNS / best.order.length); left > 0; left -= 1) {
    const other = reordered(task, best, draw);
    const again = other === null ? null : timed(timer, other);
    if (again !== null && again.timetable.total <= best.timetable.total) best = again;
  }
  return best;
}

function timed(timer: Timer, order: readonly TimedRun[]): TimedOrder | null {
  const timetable = timer(order);
  return timetable === null ? null : { order, timetable };
}

/** One change, drawn. */
function changed(task: PlanTask, timer: Timer, now: TimedOrder, draw: Draw): TimedOrder | null {
  if (draw() * 100 < REFIT_IN_HUNDRED) return fittedAnew(task, timer, now, draw);
  const order = reordered(task, now, draw);
  return order === null ? null : timed(timer, order);
}

/**
 * Improves a plan.
 *
 * @returns the best plan found
 */
export function improve(
  task: PlanTask,
  timer: Timer,
  first: TimedOrder,
  draw: Draw,
  wishes: Improvement,
): TimedOrder {
  let best = first;
  let now = first;
  // Temperature as a share of the total: it falls with every change tried since the last better plan.
  let idle = 0;
  while (!wishes.shouldStop() && idle < wishes.patience && best.timetable.total > wishes.leastTotal + 1e-6) {
    idle += 1;
    const next = changed(task, timer, now, draw);
    if (next === null) continue;
    const heat = 0.006 * best.timetable.total * (1 - (idle % 4000) / 4000);
    const worse = next.timetable.total - now.timetable.total;
    if (worse <= 0 || draw() < Math.exp(-worse / Math.max(heat, 1e-9))) now = next;
    if (next.timetable.total < best.timetable.total - 1e-6) {
      best = next;
      now = best;
      idle = 0;
      wishes.onBetter(best);
    } else if (idle % 4000 === 0) now = best;
  }
  return best;
}
