/**
 * Makes a plan better as long as it may: takes a few trains out and fits them in anew (large-neighbourhood search), and moves single
 * runs about in the order, so that the hands and the blocks are had by others first. Worse orders are taken now and then, less and less.
 */
import { type Draw, shuffled } from '../../chance.ts';
import { must } from '../track-table.ts';
import type { TimedOrder } from './first-plan.ts';
import { drawWishes, insertTrains, type Timer } from './insert-trains.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';

/** One run moved to another place between its own train's neighbours in the order. */
export function withRunMoved(order: readonly TimedRun[], draw: Draw): readonly TimedRun[] | null {
  const place = Math.floor(draw() * order.length);
  const run = order[place];
  if (run === undefined) return null;
  let low = place;
  while (low > 0 && order[low - 1]?.mover !== run.mover) low -= 1;
  let high = place;
  while (high < order.length - 1 && order[high + 1]?.mover !== run.mover) high += 1;
  if (low === high) return null;
  // Near places more often than far ones.
  const reach = 1 + Math.floor(draw() * draw() * 12);
  const to = draw() < 0.5 ? Math.max(low, place - reach) : Math.min(high, place + reach);
  if (to === place) return null;
  const moved = order.filter((_, index) => index !== place);
  moved.splice(to, 0, run);
  return moved;
}

/** All runs of one train from a place on moved before, or behind, the next runs of another. */
export function withTrainMoved(order: readonly TimedRun[], draw: Draw): readonly TimedRun[] | null {
  const from = Math.floor(draw() * order.length);
  const run = order[from];
  if (run === undefined) return null;
  const { mover } = run;
  const count = 1 + Math.floor(draw() * 6);
  const picked: number[] = [];
  for (let place = from; place < order.length && picked.length < count; place += 1)
    if (order[place]?.mover === mover) picked.push(place);
  const chosen = new Set(picked);
  const group = picked.map((place) => must(order[place]));
  const rest = order.filter((_, place) => !chosen.has(place));
  let low = 0;
  for (let place = 0; place < from; place += 1) if (order[place]?.mover === mover) low = place + 1;
  const after = order.findIndex((one, place) => place > must(picked.at(-1)) && one.mover === mover);
  const high = after < 0 ? rest.length : after - group.length;
  if (high <= low) return null;
  const to = low + Math.floor(draw() * (high - low + 1));
  rest.splice(to, 0, ...group);
  return rest;
}

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

function refitted(task: PlanTask, timer: Timer, now: TimedOrder, draw: Draw): readonly TimedRun[] | null {
  const out = pickTrains(task, now, draw);
  const rest = now.order.filter(({ mover }) => !out.includes(mover));
  const present = task.movers.map((_, index) => index).filter((mover) => !out.includes(mover));
  const wishes = drawWishes(draw, draw() < 0.4 ? 40 : 0);
  const inserted = insertTrains(task, timer, rest, present, out, wishes);
  return inserted.ok ? inserted.order : null;
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
const REFIT_IN_HUNDRED = 8;

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
    const kind = draw() * 100;
    const order =
      kind < REFIT_IN_HUNDRED
        ? refitted(task, timer, now, draw)
        : kind < 55
          ? withRunMoved(now.order, draw)
          : withTrainMoved(now.order, draw);
    if (order === null) continue;
    const timetable = timer(order);
    if (timetable === null) continue;
    const heat = 0.004 * best.timetable.total * (1 - (idle % 4000) / 4000);
    const worse = timetable.total - now.timetable.total;
    if (worse <= 0 || draw() < Math.exp(-worse / Math.max(heat, 1e-9))) now = { order, timetable };
    if (timetable.total < best.timetable.total - 1e-6) {
      best = { order, timetable };
      now = best;
      idle = 0;
      wishes.onBetter(best);
    } else if (idle % 4000 === 0) now = best;
  }
  return best;
}
