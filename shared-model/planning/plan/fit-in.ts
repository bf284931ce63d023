/**
 * Fits a train into an order of runs of others, anywhere between them and whatever that delays. A sweep over the places of the order:
 * at each place there is, for every standing that the train can have come to by then, the cheapest way so far. Where another's next run
 * needs the track under it, it must have gone on before; where others bar its way, it waits for the place at which they have left.
 * Unlike a search between fixed times it can push others back. Its times are estimates: the timetable of the whole order judges.
 */

import { numberHeap } from '../../number-heap.ts';
import type { Seconds } from '../../units.ts';
import { countedAhead, partOf } from '../memory.ts';
import { must } from '../track-table.ts';
import { MINUTE } from './options.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import { earliestSlot } from './slots.ts';
import type { Timetable } from './timetable.ts';

export interface FitWishes {
  /** Seconds that a run is taken to cost more than it takes, so that another way may be tried. */
  dislike(run: TimedRun): Seconds;
  /** How much a second of delay to others counts beside one of its own. */
  readonly delayWeight: number;
}

interface Label {
  readonly standing: number;
  readonly time: Seconds;
  readonly cost: number;
  /** Before which run of the order its last run comes. */
  readonly place: number;
  readonly run: TimedRun | null;
  /** When the hands are done with its last throw. */
  readonly hands: Seconds;
  readonly before: Label | null;
}

const NOBODY = -1;

/** When others come into each resource, as the order goes on. */
function entriesOf(task: PlanTask, order: readonly TimedRun[], { departs }: Timetable) {
  const places: number[][] = Array.from({ length: task.table.resources }, () => []);
  const times: number[][] = places.map(() => []);
  order.forEach((run, place) => {
    for (const { resource, after } of run.enters) {
      places[resource]?.push(place);
      times[resource]?.push((departs[place] as number) + after);
    }
  });
  const next = new Int32Array(task.table.resources);
  return (resource: number, place: number): Seconds => {
    const list = must(places[resource]);
    let index = next[resource] as number;
    while (index < list.length && (list[index] as number) < place) index += 1;
    next[resource] = index;
    return times[resource]?.[index] ?? Number.POSITIVE_INFINITY;
  };
}

/** Both orders in one: each own run as late as it departs among the others, as far as none of those is in its way by then. */
function merged(
  own: readonly Label[],
  order: readonly TimedRun[],
  { departs }: Timetable,
  under: (standing: number) => readonly number[],
): readonly TimedRun[] {
  const both: TimedRun[] = [];
  let at = 0;
  for (const { place, run, time, before } of own) {
    const { seconds, enters, parents } = must(run);
    const touched = new Set([
      ...under(must(before).standing),
      ...enters.map(({ resource }) => resource),
      ...parents,
    ]);
    const isInTheWay = (other: TimedRun): boolean =>
      other.enters.some(({ resource }) => touched.has(resource)) ||
      other.parents.some((parent) => touched.has(parent));
    for (let other = order[at]; other !== undefined; other = order[at]) {
      const isLater = (departs[at] as number) > time - seconds;
      if (at >= place && (isLater || isInTheWay(other))) break;
      both.push(other);
      at += 1;
    }
    both.push(must(run));
  }
  return [...both, ...order.slice(at)];
}

/** A label with its places in the lists, and a run that was tried from one. */
const LABEL_BYTES = 400;
const TRIED_BYTES = 100;

/**
 * @param order runs of others, a witness for them without the mover
 * @param present who is there, besides the mover
 * @returns both orders in one; null where there is no place for it
 */
export function fitIn(
  task: PlanTask,
  order: readonly TimedRun[],
  timetable: Timetable,
  present: ReadonlySet<number>,
  moverNumber: number,
  wishes: FitWishes,
): readonly TimedRun[] | null {
  const memory = partOf(task.memory);
  const both = fitWithin({ ...task, memory }, order, timetable, present, moverNumber, wishes);
  memory.giveAllBack();
  return both;
}

function fitWithin(
  task: PlanTask,
  order: readonly TimedRun[],
  timetable: Timetable,
  present: ReadonlySet<number>,
  moverNumber: number,
  { dislike, delayWeight }: FitWishes,
): readonly TimedRun[] | null {
  const { table, knobs, options, obstacles, movers } = task;
  const { marginSeconds, throwSeconds, throwsPerMinute, talkSeconds, startSeconds } = options;
  const mover = must(movers[moverNumber]);
  const holder = new Int32Array(table.resources).fill(NOBODY);
  const freeAt = new Float64Array(table.resources).fill(Number.NEGATIVE_INFINITY);
  const values = Int32Array.from(knobs.values);
  const hands = timetable.throws.map(({ at }) => at).sort((one, other) => one - other);
  const nextEntry = entriesOf(task, order, timetable);
  for (const { resources } of obstacles) for (const resource of resources) holder[resource] = movers.length;
  for (const other of present) for (const resource of must(movers[other]).under(0)) holder[resource] = other;

  const live = new Map<number, Label>();
  const labels: Label[] = [];
  const open = numberHeap();
  /** Labels that stood in a resource when they were made, and runs that wait for one to become free. */
  const standing: Label[][] = Array.from({ length: table.resources }, () => []);
  const waiting: { label: Label; run: TimedRun }[][] = Array.from({ length: table.resources }, () => []);
  /** The runs by which each standing was come to, or could have been at more cost. */
  const triedInto = new Map<number, { label: Label; run: TimedRun }[]>();
  let place = 0;
  const spend = countedAhead(task.memory);
  let isFull = false;

  const add = (label: Label): void => {
    const known = live.get(label.standing);
    if (isFull || (known !== undefined && known.cost <= label.cost)) return;
    isFull = !spend(LABEL_BYTES);
    live.set(label.standing, label);
    for (const resource of mover.under(label.standing)) standing[resource]?.push(label);
    open.push(labels.length, label.cost);
    labels.push(label);
  };

  const take = (label: Label, run: TimedRun): void => {
    const tried = triedInto.get(run.to);
    if (tried === undefined) triedInto.set(run.to, [{ label, run }]);
    else tried.push({ label, run });
    let departs = label.time;
    let free = 0;
    for (const { resource, after } of run.enters) {
      const from = (freeAt[resource] as number) + marginSeconds;
      free = Math.max(free, from);
      departs = Math.max(departs, from - after);
    }
    for (const parent of run.parents) departs = Math.max(departs, (freeAt[parent] as number) + marginSeconds);
    let { hands: done } = label;
    let throws = 0;
    for (const { knob, value } of run.needs) {
      if (values[knob] === value) continue;
      throws += 1;
      const slot = earliestSlot(hands, Math.max(done, free), throwSeconds, throwsPerMinute, MINUTE);
      done = slot + throwSeconds;
    }
    if (throws > 0) departs = Math.max(departs, done + marginSeconds);
    if (label.run === null) departs = Math.max(departs, talkSeconds) + startSeconds;
    else if (departs > label.time) departs = Math.max(departs, label.time + talkSeconds + startSeconds);
    const time = departs + run.seconds;
    let delay = 0;
    for (const { resource, after } of run.clears)
      delay += Math.max(0, departs + after + marginSeconds - nextEntry(resource, place));
    const cost = label.cost + (time - label.time) + delayWeight * delay + dislike(run);
    add({ standing: run.to, time, cost, place, run, hands: done, before: label });
  };

  const isHeld = (resource: number): boolean => (holder[resource] as number) !== NOBODY;
  const tryRun = (label: Label, run: TimedRun): void => {
    isFull ||= !spend(TRIED_BYTES);
    const barred = run.enters.find(({ resource }) => isHeld(resource))?.resource ?? run.parents.find(isHeld);
    if (barred === undefined) take(label, run);
    else waiting[barred]?.push({ label, run });
  };
  const spread = (): void => {
    for (let number = open.pop(); number >= 0; number = open.pop()) {
      const label = must(labels[number]);
      if (live.get(label.standing) !== label) continue;
      for (const run of mover.runsFrom(label.standing)) tryRun(label, run);
    }
  };
  /** Whoever stood in a resource that another's run wants has had to go on before, or to come there after. */
  const leave = (resource: number): void => {
    for (const label of must(standing[resource])) {
      if (live.get(label.standing) !== label) continue;
      live.delete(label.standing);
      waiting[resource]?.push(...(triedInto.get(label.standing) ?? []));
      triedInto.delete(label.standing);
    }
    standing[resource] = [];
  };

  const { notBefore } = mover;
  add({ standing: 0, time: notBefore, cost: notBefore, place: 0, run: null, hands: 0, before: null });
  spread();
  for (const run of order) {
    for (const { resource } of run.enters) leave(resource);
    for (const parent of run.parents) leave(parent);
    if (isFull || live.size === 0) return null;
    for (const { resource } of run.enters) holder[resource] = run.mover;
    for (const { knob, value } of run.needs) values[knob] = value;
    for (const { knob, value } of run.trails) values[knob] = value;
    const departs = timetable.departs[place] as number;
    place += 1;
    for (const { resource, after } of run.clears) {
      holder[resource] = NOBODY;
      freeAt[resource] = departs + after;
      const again = must(waiting[resource]);
      if (again.length === 0) continue;
      waiting[resource] = [];
      for (const { label, run: next } of again) if (live.get(label.standing) === label) tryRun(label, next);
    }
    spread();
  }
  let best: Label | null = null;
  for (const label of live.values())
    if (mover.isGoal(label.standing) && (best === null || label.cost < best.cost)) best = label;
  if (best === null) return null;
  const own: Label[] = [];
  for (let at: Label | null = best; at !== null && at.run !== null; at = at.before) own.push(at);
  own.reverse();
  return merged(own, order, timetable, (standing) => mover.under(standing));
}
