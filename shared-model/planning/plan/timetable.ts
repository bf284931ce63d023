/**
 * From an order of runs to times. The order says who enters each block first and whose throws the hands see to first; every run then
 * starts, and every throw begins, as early as what comes before it in the order allows. An order that is a witness for the trains
 * one at a time is never a deadlock, so that its timetable is always conflict-free.
 */
import type { Seconds } from '../../units.ts';
import { must } from '../track-table.ts';
import type { Need } from './knobs.ts';
import { MINUTE } from './options.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import { earliestSlot, handsQueue, INSTANT, insertSorted } from './slots.ts';

/** A throw with the run that needs it (its place in the order) and what must have been left before it. */
export interface TimedThrow {
  readonly at: Seconds;
  readonly knob: number;
  readonly value: number;
  readonly run: number;
  /** The blocks that were to be empty (or, put off, to stand) for it: all that it feeds through toggles that are on, or that its edges are in. */
  readonly over: readonly number[];
}

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
const NOBODY = -1;
/** An obstacle holds what it stands in for good. */
const OBSTACLE = -2;

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
  const { table, knobs, movers, options } = task;
  const { throwSeconds, marginSeconds, throwsPerMinute, talkSeconds, startSeconds } = options;
  const holder = new Int32Array(table.resources);
  const freeAt = new Float64Array(table.resources);
  const lastHolder = new Int32Array(table.resources);
  /** Not entered before: the end of a throw that touches the block, with its margin. */
  const quietFrom = new Float64Array(table.resources);
  /** The place in the order of the last run that waited for (or was free to use) what was left here. */
  const readBy = new Int32Array(table.resources);
  const values = new Int32Array(knobs.knobs.length);
  const changedAt = new Float64Array(knobs.knobs.length);
  const standing = new Int32Array(movers.length);
  const ready = new Float64Array(movers.length);
  const moved = new Uint8Array(movers.length);
  const runsAhead = new Int32Array(movers.length);
  /** The places in the order of the runs of each mover's present move. */
  const moveRuns: number[][] = movers.map(() => []);
  const hands = handsQueue(throwSeconds, throwsPerMinute, MINUTE);
  let voice: number[] = [];
  let throws: TimedThrow[] = [];
  let place = 0;

  const reset = (order: readonly TimedRun[], present?: (mover: number) => boolean): void => {
    holder.fill(NOBODY);
    freeAt.fill(Number.NEGATIVE_INFINITY);
    lastHolder.fill(NOBODY);
    quietFrom.fill(Number.NEGATIVE_INFINITY);
    readBy.fill(-1);
    values.set(knobs.values);
    changedAt.fill(0);
    runsAhead.fill(0);
    hands.clear();
    voice = [];
    throws = [];
    for (const { mover } of order) runsAhead[mover] = (runsAhead[mover] as number) + 1;
    for (const { resources } of task.obstacles) for (const resource of resources) holder[resource] = OBSTACLE;
    movers.forEach((mover, index) => {
      standing[index] = 0;
      ready[index] = mover.notBefore;
      moved[index] = 0;
      moveRuns[index] = [];
      if (present?.(index) === false) return;
      for (const resource of mover.under(0)) holder[resource] = index;
    });
  };

  /** Whether whoever is in a block stands there for good. */
  const staysFor = (block: number): boolean => {
    const by = holder[block] as number;
    return by === OBSTACLE || (by >= 0 && runsAhead[by] === 0);
  };

  const record = (knob: number, value: number, from: Seconds, over: readonly number[]): Seconds => {
    const at = hands.book(Math.max(0, from, changedAt[knob] as number));
    if (at === Number.POSITIVE_INFINITY) return at;
    throws.push({ at, knob, value, run: place, over });
    values[knob] = value;
    changedAt[knob] = at + throwSeconds;
    return at + throwSeconds;
  };

  /** Puts a toggle off under trains that stand there for good; the end of the throw, Infinity where it cannot be done. */
  const putOff = (toggle: number, blocks: readonly number[]): Seconds => {
    let from = 0;
    for (const block of blocks) {
      const by = holder[block] as number;
      if (by === NOBODY) from = Math.max(from, (freeAt[block] as number) + marginSeconds);
      else if (!staysFor(block)) return Number.POSITIVE_INFINITY;
      else if (by >= 0) from = Math.max(from, ready[by] as number);
    }
    const end = record(toggle, 0, from, blocks);
    for (const block of blocks) quietFrom[block] = Math.max(quietFrom[block] as number, end + marginSeconds);
    return end;
  };

  /** The blocks that a block feeds through toggles that are on, with itself. */
  const fedThrough = (block: number): number[] => [
    block,
    ...must(knobs.behind[block]).flatMap((next) => (values[next.toggle] === 1 ? fedThrough(next.block) : [])),
  ];

  /**
   * All that a knob feeds (or that its edges are in) is empty before it is thrown; sections in which a train stands for good are put
   * off first. Gathers the blocks into `blocks`; the earliest beginning, Infinity where it cannot be done.
   */
  const emptied = (block: number, blocks: number[]): Seconds => {
    if (holder[block] !== NOBODY) return Number.POSITIVE_INFINITY;
    blocks.push(block);
    readBy[block] = place;
    let from = (freeAt[block] as number) + marginSeconds;
    for (const next of must(knobs.behind[block])) {
      from = Math.max(from, changedAt[next.toggle] as number);
      if (values[next.toggle] !== 1) continue;
      const inner =
        holder[next.block] === NOBODY
          ? emptied(next.block, blocks)
          : putOff(next.toggle, fedThrough(next.block));
      from = Math.max(from, inner);
    }
    return from;
  };

  const throwKnob = (knob: number, value: number): Seconds => {
    const lever = must(knobs.knobs[knob]).kind === 'turnout';
    const blocks: number[] = [];
    let from = 0;
    for (const block of must(knobs.blocks[knob])) {
      if (!lever) from = Math.max(from, emptied(block, blocks));
      else if (holder[block] !== NOBODY) return Number.POSITIVE_INFINITY;
      else {
        blocks.push(block);
        readBy[block] = place;
        from = Math.max(from, (freeAt[block] as number) + marginSeconds);
      }
      if (from === Number.POSITIVE_INFINITY) return from;
    }
    const end = record(knob, value, from, blocks);
    for (const block of blocks) quietFrom[block] = Math.max(quietFrom[block] as number, end + marginSeconds);
    return end;
  };

  /** When the last train has left what a knob feeds by itself. */
  const leftFrom = ({ knob }: Need): Seconds =>
    must(knobs.blocks[knob]).reduce((from, block) => Math.max(from, freeAt[block] as number), 0);

  /** Throws what stands wrong: what can be thrown first goes first, so that the hands are never idle for want of an order. */
  const throwAll = (needs: readonly Need[]): Seconds => {
    let wrong = 0;
    for (const { knob, value } of needs) if (values[knob] !== value) wrong += 1;
    if (wrong === 0) return 0;
    const inOrder = wrong === 1 ? needs : needs.toSorted((one, other) => leftFrom(one) - leftFrom(other));
    let end = 0;
    for (const { knob, value } of inOrder)
      if (values[knob] !== value) end = Math.max(end, throwKnob(knob, value));
    return end;
  };

  /** The earliest that the head may leave the stop for a run, for all that others and the knobs ask; Infinity: never. */
  const boundOf = (run: TimedRun): Seconds => {
    let bound = 0;
    for (const { resource, after } of run.enters) {
      // A diamond that its own tail leaves on the way: a run that would meet its tail there is none.
      if (holder[resource] === run.mover) continue;
      if (holder[resource] !== NOBODY) return Number.POSITIVE_INFINITY;
      readBy[resource] = place;
      bound = Math.max(
        bound,
        (freeAt[resource] as number) + marginSeconds - after,
        (quietFrom[resource] as number) - after,
      );
    }
    for (const parent of run.parents) {
      if (holder[parent] === run.mover || lastHolder[parent] === run.mover) continue;
      if (holder[parent] !== NOBODY) return Number.POSITIVE_INFINITY;
      readBy[parent] = place;
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
    reset(order, present);
    const departs = new Float64Array(order.length);
    const fromStand = new Uint8Array(order.length);
    const losesAtStarts = startSeconds > 0 || talkSeconds > 0;
    for (place = 0; place < order.length; place += 1) {
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
    return { departs, fromStand, throws, arrives, total };
  };
}
