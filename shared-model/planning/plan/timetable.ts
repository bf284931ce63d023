/**
 * From an order of runs to times. The order says who enters each block first and whose throws the hands see to first; every run then
 * starts, and every throw begins, as early as what comes before it in the order allows. An order that is a witness for the trains
 * one at a time is never a deadlock, so that its timetable is always conflict-free.
 */
import type { Seconds } from '../../units.ts';
import { must } from '../track-table.ts';
import { MINUTE } from './options.ts';
import { NOBODY, orderState, resetOrder, type TimedThrow } from './order-state.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import { earliestSlot, INSTANT, insertSorted } from './slots.ts';
import { thrower } from './thrower.ts';

export interface Timetable {
  /** When the head leaves the stop where each run of the order begins. */
  readonly departs: Float64Array;
  /** Whether a run begins a new move, from a stand. */
  readonly fromStand: Uint8Array;
  readonly throws: readonly TimedThrow[];
  /** When each mover arrives where it is at last; 0 for one that never moves. */
  readonly arrives: Float64Array;
  readonly total: Seconds;
}

/** So long a train stands at least before it starts again: a move that began where the one before ended would read as one without a stop. */
const STAND: Seconds = 0.01;

/**
 * Makes the function that times orders of runs for a task; it keeps its own working memory, so that thousands of orders a second can
 * be tried.
 *
 * @returns a function from an order to its timetable; null where the order is no witness: a train is in the way, or a knob cannot be
 *   thrown because of a train that stands on what it feeds. `present` leaves movers out (they are away).
 */
export function timetabler(
  task: PlanTask,
): (order: readonly TimedRun[], present?: (mover: number) => boolean) => Timetable | null {
  const { movers, options } = task;
  const { marginSeconds, talkSeconds, startSeconds } = options;
  const state = orderState(task);
  const { holder, freeAt, lastHolder, quietFrom, readBy, values, changedAt } = state;
  const { standing, ready, moved, runsAhead, moveRuns } = state;
  const { throwAll, clear } = thrower(task, state);
  let voice: number[] = [];

  /** The earliest that the head may leave the stop for a run, for all that others and the knobs ask; Infinity: never. */
  const boundOf = (run: TimedRun): Seconds => {
    let bound = 0;
    for (const { resource, after } of run.enters) {
      // A diamond that its own tail leaves on the way: a run that would meet its tail there is none.
      if (holder[resource] === run.mover) continue;
      if (holder[resource] !== NOBODY) return Number.POSITIVE_INFINITY;
      readBy[resource] = state.place;
      bound = Math.max(
        bound,
        (freeAt[resource] as number) + marginSeconds - after,
        (quietFrom[resource] as number) - after,
      );
    }
    for (const parent of run.parents) {
      if (holder[parent] === run.mover || lastHolder[parent] === run.mover) continue;
      if (holder[parent] !== NOBODY) return Number.POSITIVE_INFINITY;
      readBy[parent] = state.place;
      bound = Math.max(bound, (freeAt[parent] as number) + marginSeconds);
    }
    if (throwAll(run.needs) === Number.POSITIVE_INFINITY) return Number.POSITIVE_INFINITY;
    for (const { knob } of run.needs) {
      if ((changedAt[knob] as number) > 0)
        bound = Math.max(bound, (changedAt[knob] as number) + marginSeconds);
    }
    return bound;
  };

  /** Starts from a stand: the words before, the time lost; gives the head's departure. */
  const startFromStand = (earliest: Seconds, bound: Seconds): Seconds => {
    const start = Math.max(earliest, bound - startSeconds);
    if (talkSeconds === 0) return start + startSeconds;
    const words = earliestSlot(
      voice,
      Math.max(0, start - talkSeconds),
      talkSeconds,
      Number.POSITIVE_INFINITY,
      MINUTE,
    );
    insertSorted(voice, words);
    return words + talkSeconds + startSeconds;
  };

  /**
   * Lets a train's present move begin later, so that it need not stop for what it would have to wait for: no start is lost, no word
   * more is said. Only while nobody has built on what the move leaves behind. Gives the delay; 0 where it cannot be done.
   */
  const delayMove = (
    order: readonly TimedRun[],
    departs: Float64Array,
    mover: number,
    wait: Seconds,
  ): Seconds => {
    const runs = must(moveRuns[mover]);
    const untouched = runs.every((index) =>
      must(order[index]).clears.every(
        ({ resource }) => (readBy[resource] as number) <= index && holder[resource] === NOBODY,
      ),
    );
    const first = runs[0];
    if (!untouched || first === undefined) return 0;
    let delay = wait;
    if (talkSeconds > 0) {
      const words = (departs[first] as number) - startSeconds - talkSeconds;
      const old = voice.findIndex((at) => Math.abs(at - words) < INSTANT);
      if (old >= 0) voice.splice(old, 1);
      const later = earliestSlot(voice, words + wait, talkSeconds, Number.POSITIVE_INFINITY, MINUTE);
      insertSorted(voice, later);
      delay = later - words;
    }
    for (const index of runs) {
      departs[index] = (departs[index] as number) + delay;
      for (const { resource, after } of must(order[index]).clears)
        if (lastHolder[resource] === mover) freeAt[resource] = (departs[index] as number) + after;
    }
    ready[mover] = (ready[mover] as number) + delay;
    return delay;
  };

  return (order, present) => {
    resetOrder(task, state, order, present);
    clear();
    voice = [];
    const departs = new Float64Array(order.length);
    const fromStand = new Uint8Array(order.length);
    const losesAtStarts = startSeconds > 0 || talkSeconds > 0;
    for (let place = 0; place < order.length; place += 1) {
      state.place = place;
      const run = order[place] as TimedRun;
      const { mover } = run;
      if (standing[mover] !== run.from) return null;
      const bound = boundOf(run);
      if (bound === Number.POSITIVE_INFINITY) return null;
      let goesOn = moved[mover] === 1 && bound <= (ready[mover] as number) + INSTANT;
      if (!goesOn && moved[mover] === 1 && losesAtStarts) {
        const wait = bound - (ready[mover] as number);
        if ((talkSeconds > 0 || wait < startSeconds) && delayMove(order, departs, mover, wait) > 0)
          goesOn = true;
      }
      let departs0 = ready[mover] as number;
      if (!goesOn) {
        const earliest = moved[mover] === 1 ? departs0 + STAND : departs0;
        departs0 = losesAtStarts ? startFromStand(earliest, bound) : Math.max(departs0, bound);
        fromStand[place] = 1;
        moveRuns[mover] = [];
      }
      departs[place] = departs0;
      moveRuns[mover]?.push(place);
      standing[mover] = run.to;
      moved[mover] = 1;
      ready[mover] = departs0 + run.seconds;
      runsAhead[mover] = (runsAhead[mover] as number) - 1;
      for (const { resource } of run.enters) holder[resource] = mover;
      for (const { knob, value } of run.trails) values[knob] = value;
      for (const parent of run.parents) quietFrom[parent] = Math.max(quietFrom[parent] as number, departs0);
      for (const { resource, after } of run.clears) {
        holder[resource] = NOBODY;
        lastHolder[resource] = mover;
        freeAt[resource] = departs0 + after;
      }
    }
    const arrives = new Float64Array(movers.length);
    let total = 0;
    for (let mover = 0; mover < movers.length; mover += 1)
      if (moved[mover] === 1) {
        arrives[mover] = ready[mover] as number;
        total += ready[mover] as number;
      }
    return { departs, fromStand, throws: state.throws, arrives, total };
  };
}
