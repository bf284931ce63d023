/**
 * Safe-interval search: the earliest way of one train to its destination between the reservations of others. A state is a standing
 * and the interval in which the train may stand there; of two arrivals in one interval the earlier is always as good.
 * (M. Phillips and M. Likhachev, "SIPP: Safe Interval Path Planning for Dynamic Environments", ICRA 2011.)
 */
import TinyQueue from 'tinyqueue';
import type { Seconds } from '../../units.ts';
import { countedAhead, partOf } from '../memory.ts';
import { must } from '../track-table.ts';
import { MINUTE } from './options.ts';
import type { PlanMover, PlanTask, TimedRun } from './plan-task.ts';
import { earliestSlot } from './slots.ts';
import type { Busy, Visits } from './visits.ts';

/** A run with the moment at which the head leaves the stop. */
export interface Departure {
  readonly run: TimedRun;
  readonly at: Seconds;
}

interface Label {
  readonly standing: number;
  readonly at: Seconds;
  readonly until: Seconds;
  readonly guess: Seconds;
  readonly run: TimedRun | null;
  readonly departs: Seconds;
  readonly before: Label | null;
}

const FOREVER = Number.POSITIVE_INFINITY;
/** Departures of one run from one stop that are tried, each in another gap between reservations. */
const MOST_GAPS = 8;

/** The end of what is reserved at a moment (itself when nothing is), and the beginning of what comes next. */
function freeFrom(busy: readonly Busy[], at: Seconds): { readonly from: Seconds; readonly next: Seconds } {
  let from = at;
  for (const one of busy) {
    if (one.till <= from) continue;
    if (one.from <= from) from = one.till;
    else return { from, next: one.from };
  }
  return { from, next: FOREVER };
}

/** When the next reservation of a resource begins after a moment. */
function nextBusy(busy: readonly Busy[], at: Seconds): Seconds {
  for (const one of busy) if (one.till > at) return one.from;
  return FOREVER;
}

export interface SearchWishes {
  /** Seconds that a run is taken to cost more than it takes, so that another way may be tried. */
  dislike(run: TimedRun): Seconds;
  /** Most labels to expand. */
  readonly most: number;
}

/**
 * Finds an early way for a train that is not among the visits.
 *
 * The hands are looked at one throw at a time, without the train's own other throws; the timetable of the whole order settles that.
 *
 * @returns its departures in order (none when it may stay where it is); null when there is no way within the effort
 */
export function intervalSearch(
  task: PlanTask,
  moverNumber: number,
  visits: Visits,
  wishes: SearchWishes,
): readonly Departure[] | null {
  const memory = partOf(task.memory);
  const way = searchWithin({ ...task, memory }, moverNumber, visits, wishes);
  memory.giveAllBack();
  return way;
}

/** A label with its places in the queue and among those of its standing. */
const LABEL_BYTES = 200;

function searchWithin(
  task: PlanTask,
  moverNumber: number,
  visits: Visits,
  wishes: SearchWishes,
): readonly Departure[] | null {
  const mover: PlanMover = must(task.movers[moverNumber]);
  const { options } = task;
  const { busy } = visits;
  const losesAtStart = options.startSeconds;
  const untilAt = (standing: number, at: Seconds): Seconds =>
    mover
      .under(standing)
      .reduce((least, resource) => Math.min(least, nextBusy(must(busy[resource]), at)), FOREVER);
  const queue = new TinyQueue<Label>([], (one, other) => one.guess - other.guess);
  const seen: Label[][] = [];
  const spend = countedAhead(task.memory);
  let isFull = false;
  const push = (label: Label): void => {
    if (isFull) return;
    const known = seen[label.standing] ?? [];
    seen[label.standing] = known;
    if (
      known.some((other) => other.at <= label.at && other.until >= label.until && other.guess <= label.guess)
    )
      return;
    known.push(label);
    queue.push(label);
    isFull = !spend(LABEL_BYTES);
  };
  const begin: Label = {
    standing: 0,
    at: mover.notBefore,
    until: untilAt(0, 0),
    guess: mover.notBefore + mover.timeLeft(0),
    run: null,
    departs: 0,
    before: null,
  };
  push(begin);

  /** When the throws that a run needs, leaving in this gap between reservations, can be done; the gap began at `since`. */
  const throwsDone = (run: TimedRun, since: Seconds, departs: Seconds): Seconds => {
    let from = Math.max(0, since);
    let any = false;
    for (const { knob, value } of run.needs) {
      if (visits.valueAt(knob, departs) === value) continue;
      any = true;
      from =
        earliestSlot(visits.hands, from, options.throwSeconds, options.throwsPerMinute, MINUTE) +
        options.throwSeconds;
    }
    return any ? from + options.marginSeconds : 0;
  };

  /** The latest that a run may leave: everything under the train has to be left, or kept, before others come. */
  const latestDeparture = (label: Label, run: TimedRun): Seconds => {
    if (label.until === FOREVER) return FOREVER;
    let latest = FOREVER;
    for (const resource of mover.under(label.standing)) {
      const next = nextBusy(must(busy[resource]), label.at);
      const cleared = run.clears.find((clear) => clear.resource === resource);
      latest = Math.min(latest, next - (cleared?.after ?? run.seconds));
    }
    return latest;
  };

  const expand = (label: Label, run: TimedRun): void => {
    const latest = latestDeparture(label, run);
    let departs = label.at;
    for (let gap = 0; gap < MOST_GAPS && departs <= latest; gap += 1) {
      let since = 0;
      let settled = false;
      let horizon = FOREVER;
      while (!settled) {
        settled = true;
        horizon = FOREVER;
        for (const { resource, after } of run.enters) {
          const { from, next } = freeFrom(must(busy[resource]), departs + after);
          const leaves = run.clears.find((clear) => clear.resource === resource)?.after ?? run.seconds;
          if (from > departs + after) {
            departs = from - after;
            since = from;
            settled = false;
          } else if (next - leaves < departs) {
            // Too little time before the next one comes: after that one, if at all.
            if (next === FOREVER) return;
            const later = freeFrom(must(busy[resource]), next).from;
            if (later === FOREVER) return;
            departs = later - after;
            since = later;
            settled = false;
          }
          horizon = Math.min(horizon, next);
        }
        for (const parent of run.parents) {
          const { from } = freeFrom(must(busy[parent]), departs);
          if (from === FOREVER) return;
          if (from > departs) {
            departs = from;
            settled = false;
          }
        }
        if (departs > latest || departs === FOREVER) return;
        const done = throwsDone(run, since, departs);
        if (done > departs) {
          departs = done;
          settled = false;
        }
        if (departs > label.at && label.before !== null && departs < label.at + losesAtStart) {
          departs = label.at + losesAtStart;
          settled = false;
        }
        if (departs > latest || departs === FOREVER) return;
      }
      const at = departs + run.seconds;
      const left = mover.timeLeft(run.to);
      const until = untilAt(run.to, at);
      if (until >= at)
        push({
          standing: run.to,
          at,
          until,
          guess: at + left + (label.guess - label.at - mover.timeLeft(label.standing)) + wishes.dislike(run),
          run,
          departs,
          before: label,
        });
      if (horizon === FOREVER) return;
      departs = Math.max(departs + 1e-6, horizon);
    }
  };

  for (let expanded = 0; expanded < wishes.most && !isFull; expanded += 1) {
    const label = queue.pop();
    if (label === undefined) return null;
    if (mover.isGoal(label.standing) && label.until === FOREVER) {
      const way: Departure[] = [];
      for (let at: Label | null = label; at !== null && at.run !== null; at = at.before)
        way.push({ run: at.run, at: at.departs });
      return way.reverse();
    }
    for (const run of mover.runsFrom(label.standing)) expand(label, run);
  }
  return null;
}
