/**
 * A witness by priorities: the trains are given their ways one after the other, each between the times of those before; where one finds
 * none, it goes first the next time. It finds most witnesses soon, and proves nothing where it finds none.
 */
import { type Draw, shuffled } from '../../chance.ts';
import { type Memory, partOf } from '../memory.ts';
import type { Movement } from '../movements.ts';
import { must } from '../track-table.ts';
import { addBusy, type BusyTimes } from './busy-times.ts';
import type { IntervalMover } from './interval-mover.ts';
import { type Departing, intervalWays, type WayWishes } from './interval-way.ts';

export interface PrioritizedTask {
  readonly movers: readonly IntervalMover[];
  readonly resources: number;
  /** What the search may have of it; it is given back at the end. */
  readonly memory: Memory;
}

/** One run of a witness: which mover, over which movement. */
export interface SafeRun {
  readonly mover: number;
  readonly movement: Movement;
}

export type Prioritized =
  | { readonly found: true; readonly runs: readonly SafeRun[] }
  | { readonly found: false; readonly stuck: number };

/** How trains that have no way yet are looked at: as away, as about to leave, as staying for good until it is their turn. */
export type RestIs = 'away' | 'leaving' | 'staying';

/** Labels of one search; a railroad of 400 blocks needs some thousands at most. */
const MOST_LABELS = 20_000;

const FOREVER = Number.POSITIVE_INFINITY;
const ALWAYS = Number.NEGATIVE_INFINITY;

/** A parent that has to be free when a run departs is kept free for so much of the time of the movers. */
const A_MOMENT = 1e-3;

/** Enters the times at which a train has its track, and the moments at which it wants the parents of sections free. */
function reserve(busy: readonly BusyTimes[], mover: IntervalMover, way: readonly Departing[]): void {
  const since = new Map<number, number>(mover.under(0).map((resource) => [resource, ALWAYS]));
  for (const { run, at } of way) {
    const { enters, diamonds, wants } = run.movement;
    const entered = [...enters, ...diamonds].map(({ resource }) => resource);
    for (const parent of wants)
      if (!entered.includes(parent) && !since.has(parent)) addBusy(must(busy[parent]), at, at + A_MOMENT);
    for (const { resource } of run.movement.enters) since.set(resource, at);
    for (const { resource } of run.movement.diamonds) since.set(resource, at);
    for (const { resource, atMm } of run.movement.clears) {
      const from = since.get(resource);
      if (from !== undefined) addBusy(must(busy[resource]), from, at + atMm / mover.speed);
      since.delete(resource);
    }
  }
  for (const [resource, from] of since) addBusy(must(busy[resource]), from, FOREVER);
}

/** How long a train that has no way yet is taken to have what is under it. */
function leavingAt({ runsFrom, speed, notBefore }: IntervalMover): number {
  const clears = runsFrom(0).flatMap(({ movement }) => movement.clears.map(({ atMm }) => atMm));
  return clears.length === 0 ? FOREVER : notBefore + (Math.max(...clears) / speed) * 2;
}

/** Makes the search for a task; it keeps its working memory from one try to the next. `labels` counts all that were made. */
function prioritizer({ movers, resources, memory }: PrioritizedTask) {
  const search = intervalWays(memory);
  const busy: BusyTimes[] = Array.from({ length: resources }, () => []);
  let labels = 0;

  /**
   * Tries one order of priority. With `staying`, a train that finds no way between those that stay waits for its turn in the next round.
   */
  const tryOrder = (priority: readonly number[], rest: RestIs, wishes: WayWishes): Prioritized => {
    for (const list of busy) list.length = 0;
    const ways: (readonly Departing[] | null)[] = movers.map(() => null);
    const stand = (mover: number): void => {
      const one = must(movers[mover]);
      const till = rest === 'staying' ? FOREVER : leavingAt(one);
      for (const resource of one.under(0)) addBusy(must(busy[resource]), ALWAYS, till);
    };
    const lift = (mover: number): void => {
      for (const resource of must(movers[mover]).under(0)) {
        const list = must(busy[resource]);
        if (list[0] === ALWAYS) list.splice(0, 2);
      }
    };
    if (rest !== 'away') for (const mover of priority) stand(mover);
    let waiting = [...priority];
    while (waiting.length > 0) {
      const stuck: number[] = [];
      for (const mover of waiting) {
        if (rest !== 'away') lift(mover);
        const way = search.wayOf(must(movers[mover]), busy, wishes);
        labels += search.labels();
        if (way === null) {
          if (rest !== 'staying') return { found: false, stuck: mover };
          stand(mover);
          stuck.push(mover);
          continue;
        }
        ways[mover] = way;
        reserve(busy, must(movers[mover]), way);
      }
      if (stuck.length === waiting.length) return { found: false, stuck: must(stuck[0]) };
      waiting = stuck;
    }
    const all = ways.flatMap((way, mover) => (way ?? []).map(({ run, at }) => ({ mover, run, at })));
    const runs = all
      .sort((one, other) => one.at - other.at)
      .map(({ mover, run }): SafeRun => ({ mover, movement: run.movement }));
    return { found: true, runs };
  };
  return { tryOrder, labels: () => labels };
}

const NO_WISHES = (resources: number): WayWishes => ({
  dislikes: new Float64Array(resources),
  most: MOST_LABELS,
});

/** Wishes by which some of the track is avoided, so that other ways are tried; `strength` in the time of the movers. */
function drawnWishes(resources: number, draw: Draw, strength: number): WayWishes {
  return {
    dislikes: Float64Array.from({ length: resources }, () => (draw() < 0.2 ? draw() * strength : 0)),
    most: MOST_LABELS,
  };
}

/** Whether one order of priority, the longest way first, gives every train a way: the plainest search, for comparison. */
export function inOneOrder(task: PrioritizedTask): boolean {
  const left = (mover: number): number => must(task.movers[mover]).timeLeft(0);
  const priority = task.movers.map((_, index) => index).sort((one, other) => left(other) - left(one));
  const memory = partOf(task.memory);
  const { found } = prioritizer({ ...task, memory }).tryOrder(priority, 'leaving', NO_WISHES(task.resources));
  memory.giveAllBack();
  return found;
}

export interface PriorityEffort {
  /** How many orders at most. */
  readonly tries: number;
  /** Told of every witness; true ends the search with it. */
  accept(runs: readonly SafeRun[]): boolean;
  /** Asked before each try but the first, with the labels made so far. */
  shouldStop(labels: number): boolean;
}

/**
 * Tries orders of priority until one gives every train a way: the shortest way first among trains that stay, then mended and drawn
 * anew.
 */
export function searchByPriority(
  task: PrioritizedTask,
  draw: Draw,
  { tries, accept, shouldStop }: PriorityEffort,
): { readonly runs: readonly SafeRun[] | null; readonly labels: number } {
  const { movers, resources } = task;
  const memory = partOf(task.memory);
  const { tryOrder, labels } = prioritizer({ ...task, memory });
  const all = movers.map((_, index) => index);
  const left = (mover: number): number => must(movers[mover]).timeLeft(0);
  const longest = Math.max(0, ...all.map(left));
  let priority = [...all].sort((one, other) => left(one) - left(other));
  for (let attempt = 0; attempt < tries && !(attempt > 0 && shouldStop(labels())); attempt += 1) {
    const rest: RestIs = attempt === 0 ? 'staying' : attempt % 2 === 1 ? 'leaving' : 'away';
    const wishes = attempt < 4 ? NO_WISHES(resources) : drawnWishes(resources, draw, longest / 4);
    const outcome = tryOrder(priority, rest, wishes);
    if (outcome.found) {
      if (accept(outcome.runs)) {
        memory.giveAllBack();
        return { runs: outcome.runs, labels: labels() };
      }
      priority = shuffled(all, draw);
      continue;
    }
    const { stuck } = outcome;
    priority =
      attempt % 8 === 7 ? shuffled(all, draw) : [stuck, ...priority.filter((mover) => mover !== stuck)];
  }
  memory.giveAllBack();
  return { runs: null, labels: labels() };
}
