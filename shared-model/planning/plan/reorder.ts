/** Other orders of the same runs: who comes first at the hands and in the blocks is changed, and no train goes another way. */
import type { Draw } from '../../chance.ts';
import { must } from '../track-table.ts';
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

/**
 * For each run the places of those that have to come before it, nearest only: its train's run before, and of each resource that it
 * wants the run by which the last one before it left.
 */
function needsBefore(task: PlanTask, order: readonly TimedRun[]): readonly (readonly number[])[] {
  const leftBy = new Int32Array(task.table.resources).fill(-1);
  const last = new Int32Array(task.movers.length).fill(-1);
  return order.map((run, place) => {
    const before = new Set<number>([last[run.mover] as number]);
    for (const { resource } of run.enters) before.add(leftBy[resource] as number);
    for (const parent of run.parents) before.add(leftBy[parent] as number);
    before.delete(-1);
    last[run.mover] = place;
    for (const { resource } of run.clears) leftBy[resource] = place;
    return [...before];
  });
}

/** One run, with all that has to come before it, ahead of everything else from a place on. */
export function withRunAhead(task: PlanTask, order: readonly TimedRun[], draw: Draw): readonly TimedRun[] {
  const before = needsBefore(task, order);
  const target = Math.floor(draw() * order.length);
  const from = Math.floor(draw() * draw() * target);
  const isAhead = new Uint8Array(order.length);
  isAhead[target] = 1;
  for (let place = target; place >= from; place -= 1)
    if (isAhead[place] === 1) for (const needed of must(before[place])) isAhead[needed] = 1;
  return [
    ...order.slice(0, from),
    ...order.filter((_, place) => place >= from && isAhead[place] === 1),
    ...order.filter((_, place) => place >= from && isAhead[place] !== 1),
  ];
}

/** One run, with all that has to come after it, behind everything else up to a place. */
export function withRunBehind(task: PlanTask, order: readonly TimedRun[], draw: Draw): readonly TimedRun[] {
  const before = needsBefore(task, order);
  const target = Math.floor(draw() * order.length);
  const till = order.length - Math.floor(draw() * draw() * (order.length - target));
  const isBehind = new Uint8Array(order.length);
  isBehind[target] = 1;
  for (let place = target + 1; place < till; place += 1)
    if (must(before[place]).some((needed) => isBehind[needed] === 1)) isBehind[place] = 1;
  return [
    ...order.filter((_, place) => place < till && isBehind[place] !== 1),
    ...order.filter((_, place) => place < till && isBehind[place] === 1),
    ...order.slice(till),
  ];
}
