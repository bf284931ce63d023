/**
 * The exact search for a plan, for small cases: every order of runs and throws, each as early as what began before it allows, the least
 * bound on the total first. An order of deeds by their beginnings is enough: whatever a plan does, the same deeds in the same order, each
 * moved to the earliest, arrive no later.
 *
 * That holds for the least total where nothing is lost at starts and no words are said (waiting at one place could save a start at
 * another) and where nothing lies behind a toggle; whether there is any plan at all always does. It holds where every run has its block
 * from its beginning on (no insulated crossing, no slip into another block).
 * Elsewhere nothing is claimed.
 */

import { numberHeap } from '../../number-heap.ts';
import type { Seconds } from '../../units.ts';
import { countedAhead, partOf } from '../memory.ts';
import { must } from '../track-table.ts';
import {
  afterRun,
  afterThrow,
  type ExactState,
  firstState,
  handsFrom,
  losesAtStarts,
  takenIn,
} from './exact-state.ts';
import type { TimedOrder } from './first-plan.ts';
import type { Need } from './knobs.ts';
import type { TimedThrow } from './order-state.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';

/** Larger railroads are not tried. */
const MOST_BLOCKS = 40;
const MOST_MOVERS = 4;
const MOST_STANDINGS = 300;
/** States between two questions whether to stop. */
const ASK_EVERY = 64;
const HAIR = 1e-6;
const FOREVER = Number.POSITIVE_INFINITY;

interface Scope {
  /** Every setting that some run needs. */
  readonly useful: readonly Need[];
  /** Whether the search, come to its end, has seen everything that trains could do. */
  readonly isWhole: boolean;
}

/** Null where the search would not do at all. */
function scopeOf({ table, knobs, options, movers }: PlanTask): Scope | null {
  if (options.throwsPerMinute < 1) return null;
  if (table.blocks.length > MOST_BLOCKS || movers.length > MOST_MOVERS) return null;
  const useful = new Map<string, Need>();
  let isWhole = true;
  for (const mover of movers) {
    const found = new Set([0]);
    for (const standing of found)
      for (const { to, enters, needs } of mover.runsFrom(standing)) {
        if (found.size > MOST_STANDINGS) return null;
        if (enters.length > 1 || enters.some(({ after }) => after > 0)) isWhole = false;
        for (const need of needs) useful.set(`${need.knob} ${need.value}`, need);
        found.add(to);
      }
    if (!mover.isWhole()) return null;
  }
  // A toggle may be put off under a train that stands, so that its parent serves another.
  const putOff = knobs.knobs.flatMap(({ kind }, knob) => (kind === 'toggle' ? [{ knob, value: 0 }] : []));
  return { useful: [...useful.values(), ...putOff], isWhole };
}

/** Throws that a mover needs before its next run at least: of any knob, and of selectors, which serve no other train. */
function throwsLeft(task: PlanTask, { values }: ExactState, runs: readonly TimedRun[]) {
  let all = FOREVER;
  let own = FOREVER;
  for (const { needs } of runs) {
    const wrong = needs.filter(({ knob, value }) => values[knob] !== value);
    all = Math.min(all, wrong.length);
    own = Math.min(own, wrong.filter(({ knob }) => must(task.knobs.knobs[knob]).kind === 'selector').length);
  }
  return { all, own };
}

/** A total than which no plan from here on has less; Infinity where there is none. */
function leastTotal(task: PlanTask, state: ExactState): Seconds {
  const { throwSeconds, marginSeconds } = task.options;
  const hands = handsFrom(task, state);
  let there = 0;
  let alone = 0;
  let waiting = 0;
  const queue: number[] = [];
  for (const [index, mover] of task.movers.entries()) {
    const standing = must(state.standing[index]);
    const ready = must(state.ready[index]);
    if (mover.isGoal(standing)) {
      if (state.moved[index] === true) there += ready;
      continue;
    }
    const { all, own } = throwsLeft(task, state, mover.runsFrom(standing));
    const from = Math.max(ready, state.since);
    const left = mover.timeLeft(standing);
    alone += Math.max(from, all === 0 ? 0 : hands + all * throwSeconds + marginSeconds) + left;
    if (own === 0) waiting += from + left;
    else {
      queue.push(own);
      waiting += left;
    }
  }
  // One pair of hands for all of them: at best those with the fewest throws first.
  let count = 0;
  for (const own of queue.sort((one, other) => one - other)) {
    count += own;
    waiting += hands + count * throwSeconds + marginSeconds;
  }
  return there + Math.max(alone, waiting);
}

/** What of a state tells when more can be done: of two that stand alike, one whose times are all no later is as good. */
function timesOf(task: PlanTask, state: ExactState): Float64Array {
  const { since, ready, free, left, set, hands } = state;
  const window = Array.from({ length: task.options.throwsPerMinute }, (_, index) => hands[index] ?? -FOREVER);
  return Float64Array.from([
    since,
    ...ready.map((at, index) =>
      task.movers[index]?.isGoal(must(state.standing[index])) ? at : Math.max(at, since),
    ),
    ...Array.from(free, (at) => Math.max(at, since)),
    ...Array.from(left, (at) => Math.max(at, since)),
    ...Array.from(set, (at) => Math.max(at, since)),
    ...window.map((at, index) => Math.max(at, index === 0 ? since - task.options.throwSeconds : since - 60)),
  ]);
}

const noLater = (one: Float64Array, other: Float64Array): boolean =>
  one.every((at, index) => at <= (other[index] as number) + 1e-9);

/** The deeds as an order with its timetable. */
function orderOf(task: PlanTask, last: ExactState): TimedOrder {
  const deeds: NonNullable<ExactState['deed']>[] = [];
  for (let at: ExactState | null = last; at?.deed; at = at.before) deeds.unshift(at.deed);
  const order: TimedRun[] = [];
  const departs: Seconds[] = [];
  const throws: TimedThrow[] = [];
  for (const deed of deeds)
    if (deed.is === 'run') {
      order.push(deed.run);
      departs.push(deed.at);
    } else {
      const { at, knob, value, over } = deed;
      throws.push({ at, knob, value, run: order.length, over });
    }
  const arrives = Float64Array.from(task.movers, (_, index) =>
    last.moved[index] ? must(last.ready[index]) : 0,
  );
  return {
    order,
    timetable: {
      departs: Float64Array.from(departs),
      fromStand: Uint8Array.from(order, () => 1),
      throws,
      arrives,
      total: arrives.reduce((sum, at) => sum + at, 0),
    },
  };
}

export interface ExactEffort {
  /** Only plans with a smaller total are looked for; Infinity: any, and then the first that is found. */
  readonly below: Seconds;
  /** Most states to make. */
  readonly states: number;
  shouldStop(): boolean;
}

export type Exact =
  /** The best there is below the bound; null: none is. */
  | { readonly ended: true; readonly best: TimedOrder | null }
  /** Too large, of another kind, or the effort ran out: nothing is said. */
  | { readonly ended: false };

/** What a state takes: lists and three rows of times, the times by which it is told from others that stand alike, its place in the queue. */
function stateBytes({ table, knobs, movers, options }: PlanTask): number {
  const times =
    4 * table.resources + 2 * knobs.knobs.length + 2 * options.throwsPerMinute + 4 * movers.length;
  return 1200 + 8 * (times + knobs.knobs.length);
}

/** Searches a task to its end, or says nothing. */
export function searchExactly(task: PlanTask, effort: ExactEffort): Exact {
  const memory = partOf(task.memory);
  const exact = searchWithin({ ...task, memory }, effort);
  memory.giveAllBack();
  return exact;
}

function searchWithin(task: PlanTask, { below, states, shouldStop }: ExactEffort): Exact {
  const scope = scopeOf(task);
  const isAny = below === FOREVER;
  const hasToggles = task.table.railroad.document.toggles.length > 0;
  if (scope === null || (!isAny && (losesAtStarts(task.options) || hasToggles || !scope.isWhole)))
    return { ended: false };
  const made: ExactState[] = [];
  const open = numberHeap();
  const known = new Map<string, Float64Array[]>();
  const spend = countedAhead(task.memory);
  const bytes = stateBytes(task);
  let isFull = false;
  const add = (state: ExactState): void => {
    if (isFull) return;
    const least = leastTotal(task, state);
    if (!(least < below - HAIR)) return;
    const key = `${state.standing.join()} ${state.values.join()} ${state.moved.join()}`;
    const alike = known.get(key);
    // Whether there is any plan at all does not depend on times.
    if (isAny && alike !== undefined) return;
    const times = isAny ? new Float64Array() : timesOf(task, state);
    if (alike === undefined) known.set(key, [times]);
    else if (alike.some((other) => noLater(other, times))) return;
    else alike.push(times);
    open.push(made.length, least);
    made.push(state);
    isFull = !spend(bytes);
  };
  add(firstState(task));
  for (let place = open.pop(), looked = 1; place >= 0; place = open.pop(), looked += 1) {
    const state = must(made[place]);
    if (isFull) return { ended: false };
    if (task.movers.every(({ isGoal }, index) => isGoal(must(state.standing[index]))))
      return { ended: true, best: orderOf(task, state) };
    if (made.length > states || (looked % ASK_EVERY === 0 && shouldStop())) return { ended: false };
    const taken = takenIn(task, state);
    for (const [index, { runsFrom }] of task.movers.entries())
      for (const run of runsFrom(must(state.standing[index]))) {
        const next = afterRun(task, state, taken, run);
        if (next !== null) add(next);
      }
    for (const { knob, value } of scope.useful) {
      if (state.values[knob] === value) continue;
      const next = afterThrow(task, state, taken, knob, value);
      if (next !== null) add(next);
    }
  }
  return scope.isWhole ? { ended: true, best: null } : { ended: false };
}
