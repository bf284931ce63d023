/**
 * The earliest way of one train to its goal between the times at which others have the track; hands and voice are not looked at. A
 * state is a standing and the interval in which the train may stand there.
 * (M. Phillips and M. Likhachev, "SIPP: Safe Interval Path Planning for Dynamic Environments", ICRA 2011.)
 *
 * A run has all that it enters from the moment it departs. So the runs of several trains, sorted by their departures, are a witness
 * for one run at a time.
 */
import { numberHeap } from '../../number-heap.ts';
import { countedAhead, type Memory, partOf } from '../memory.ts';
import { type BusyTimes, freeFrom, nextBusy } from './busy-times.ts';
import { type IntervalMover, type IntervalRun, type ReadyRun, readyRunsFrom } from './interval-mover.ts';

export interface Departing {
  readonly run: IntervalRun;
  readonly at: number;
}

export interface WayWishes {
  /** By resource: time that entering it is taken to cost more than it does, so that another way may be tried. */
  readonly dislikes: Float64Array;
  /** Most labels to make. */
  readonly most: number;
}

const FOREVER = Number.POSITIVE_INFINITY;
/** Departures of one run from one stop that are tried, each in another gap between the times of others. */
const MOST_GAPS = 6;

/** A label: nine numbers in lists that grow by half, with its places in the queue. */
const LABEL_BYTES = 250;

/**
 * Makes the search; it keeps its lists from one question to the next.
 *
 * @param memory what it has of it stays taken until whoever gave it takes it back
 */
export function intervalWays(memory: Memory) {
  const standings: number[] = [];
  const ats: number[] = [];
  const untils: number[] = [];
  const costs: number[] = [];
  const departs: number[] = [];
  const befores: number[] = [];
  const runs: (IntervalRun | null)[] = [];
  /** The newest label of each standing, and the one before it of the same. */
  const newest: number[] = [];
  const older: number[] = [];
  const open = numberHeap();
  const spend = countedAhead(memory);
  let made = 0;
  /** Most labels at a time so far, and whether there is memory for more. */
  let most = 0;
  let isFull = false;

  /** The earliest departure of a run not before `at` that keeps off everybody, or Infinity; not later than `latest`. */
  const departure = (busy: readonly BusyTimes[], ready: ReadyRun, at: number, latest: number): number => {
    let from = at;
    for (let settled = false; !settled; ) {
      settled = true;
      for (let place = 0; place < ready.enters.length; place += 1) {
        const list = busy[ready.enters[place] as number] as BusyTimes;
        if (list.length === 0) continue;
        const holds = ready.holds[place] as number;
        for (;;) {
          const free = freeFrom(list, from);
          if (free > from) settled = false;
          from = free;
          if (from > latest || from === FOREVER) return FOREVER;
          const next = nextBusy(list, from);
          if (from + holds <= next) break;
          from = next;
          settled = false;
        }
      }
      for (const parent of ready.parents) {
        const free = freeFrom(busy[parent] as BusyTimes, from);
        if (free > from) settled = false;
        from = free;
      }
      if (from > latest || from === FOREVER) return FOREVER;
    }
    return from;
  };

  /**
   * @param busy of each resource, the times at which others have it
   * @returns the departures in order (none when it may stay where it is); null when there is no way within the effort
   */
  const wayOf = (
    mover: IntervalMover,
    busy: readonly BusyTimes[],
    { dislikes, most: mayMake }: WayWishes,
  ): readonly Departing[] | null => {
    newest.fill(-1);
    open.clear();
    made = 0;

    const untilAt = (standing: number, at: number): number => {
      let until = FOREVER;
      for (const resource of mover.under(standing))
        until = Math.min(until, nextBusy(busy[resource] as BusyTimes, at));
      return until;
    };
    const add = (
      standing: number,
      at: number,
      cost: number,
      before: number,
      run: IntervalRun | null,
      departed: number,
    ): void => {
      const until = untilAt(standing, at);
      if (until < at) return;
      for (let other = newest[standing] ?? -1; other >= 0; other = older[other] as number)
        if (
          (ats[other] as number) <= at &&
          (untils[other] as number) >= until &&
          (costs[other] as number) <= cost
        )
          return;
      if (made === most) {
        most += 1;
        isFull = !spend(LABEL_BYTES);
        if (isFull) return;
      }
      const label = made;
      made += 1;
      standings[label] = standing;
      ats[label] = at;
      untils[label] = until;
      costs[label] = cost;
      departs[label] = departed;
      befores[label] = before;
      runs[label] = run;
      older[label] = newest[standing] ?? -1;
      newest[standing] = label;
      open.push(label, cost + mover.timeLeft(standing));
    };

    add(0, mover.notBefore, mover.notBefore, -1, null, 0);
    for (let label = open.pop(); label >= 0 && made < mayMake && !isFull; label = open.pop()) {
      const standing = standings[label] as number;
      const at = ats[label] as number;
      const until = untils[label] as number;
      if (until === FOREVER && mover.isGoal(standing)) {
        const way: Departing[] = [];
        for (let back = label; runs[back] != null; back = befores[back] as number)
          way.push({ run: runs[back] as IntervalRun, at: departs[back] as number });
        return way.reverse();
      }
      const under = mover.under(standing);
      for (const ready of readyRunsFrom(mover, standing)) {
        let latest = FOREVER;
        if (until !== FOREVER)
          for (let place = 0; place < under.length; place += 1) {
            const next = nextBusy(busy[under[place] as number] as BusyTimes, at);
            latest = Math.min(latest, next - (ready.behind[place] as number));
          }
        let extra = 0;
        for (const resource of ready.enters) extra += dislikes[resource] as number;
        let from = at;
        for (let gap = 0; gap < MOST_GAPS; gap += 1) {
          const departed = departure(busy, ready, from, latest);
          if (departed === FOREVER) break;
          const arrived = departed + ready.takes;
          const cost = (costs[label] as number) + (arrived - at) + extra;
          add(ready.run.to, arrived, cost, label, ready.run, departed);
          let horizon = FOREVER;
          for (const resource of ready.enters)
            horizon = Math.min(horizon, nextBusy(busy[resource] as BusyTimes, departed));
          if (horizon === FOREVER) break;
          from = horizon;
        }
      }
    }
    return null;
  };
  return { wayOf, labels: () => made };
}

/** When a train alone on the railroad is there at the soonest, by running alone; without memory to find that, a time that is no later. */
export function soonestAlone(mover: IntervalMover, resources: number, memory: Memory): number {
  const own = partOf(memory);
  const way = intervalWays(own).wayOf(
    mover,
    Array.from({ length: resources }, () => []),
    { dislikes: new Float64Array(resources), most: Number.POSITIVE_INFINITY },
  );
  own.giveAllBack();
  if (way === null) return mover.notBefore + mover.timeLeft(0);
  const last = way.at(-1);
  return last === undefined ? 0 : last.at + last.run.movement.lengthMm / mover.speed;
}
