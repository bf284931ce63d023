/** A state of the exact search: how far every train is, how the knobs stand, and from when on everything may be had. */
import type { Seconds } from '../../units.ts';
import { must } from '../track-table.ts';
import { MINUTE, type PlanOptions } from './options.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';

/** What was done last. */
export type Deed =
  | { readonly is: 'run'; readonly run: TimedRun; readonly at: Seconds }
  | {
      readonly is: 'throw';
      readonly knob: number;
      readonly value: number;
      readonly at: Seconds;
      /** The blocks that it feeds through toggles that are on, or that its edges are in. */
      readonly over: readonly number[];
    };

export interface ExactState {
  /** When the last deed began: none after it begins earlier. */
  readonly since: Seconds;
  readonly standing: readonly number[];
  readonly ready: readonly Seconds[];
  readonly moved: readonly boolean[];
  readonly values: readonly number[];
  /** By resource: not had before, for the tail that left it and the throws that touch it. */
  readonly free: Float64Array;
  /** By resource: for throws, which only a tail keeps off. */
  readonly left: Float64Array;
  /** By knob: from when on a head may come to what it serves. */
  readonly set: Float64Array;
  /** Beginnings of the latest throws, the newest first, as many as a minute may hold. */
  readonly hands: readonly Seconds[];
  /** No head departs before, for the words of the run before. */
  readonly voice: Seconds;
  readonly deed: Deed | null;
  readonly before: ExactState | null;
}

const NEVER = Number.NEGATIVE_INFINITY;

export function firstState({ table, knobs, movers }: PlanTask): ExactState {
  return {
    since: 0,
    standing: movers.map(() => 0),
    ready: movers.map(({ notBefore }) => notBefore),
    moved: movers.map(() => false),
    values: knobs.values,
    free: new Float64Array(table.resources).fill(NEVER),
    left: new Float64Array(table.resources).fill(NEVER),
    set: new Float64Array(knobs.knobs.length).fill(NEVER),
    hands: [],
    voice: 0,
    deed: null,
    before: null,
  };
}

/** Which resources somebody has, in a state. */
export function takenIn({ obstacles, movers, table }: PlanTask, { standing }: ExactState): Uint8Array {
  const taken = new Uint8Array(table.resources);
  for (const { resources } of obstacles) for (const resource of resources) taken[resource] = 1;
  for (const [index, { under }] of movers.entries())
    for (const resource of under(must(standing[index]))) taken[resource] = 1;
  return taken;
}

/** So long a train stands at least between two moves. */
const STAND: Seconds = 0.01;

/** Whether it matters how often a train starts. */
export const losesAtStarts = ({ talkSeconds, startSeconds }: PlanOptions): boolean =>
  talkSeconds > 0 || startSeconds > 0;

/** When a head departs that wants to at a moment, with its words and what is lost at the start; every run is taken for a move of its own. */
function fromStand(
  { talkSeconds, startSeconds }: PlanOptions,
  { ready, moved, voice }: ExactState,
  mover: number,
  at: Seconds,
): Seconds {
  const stands = must(ready[mover]) + (moved[mover] === true ? STAND : 0);
  return Math.max(at, voice, stands + startSeconds, talkSeconds + startSeconds);
}

/** Whether the toggles are on of every section that a train lies in: one that was put off under it is dead, and is not thrown under it again. */
function isAlive(
  { table, knobs, movers }: PlanTask,
  { standing, values }: ExactState,
  mover: number,
): boolean {
  if (table.railroad.document.toggles.length === 0) return true;
  return must(movers[mover])
    .under(must(standing[mover]))
    .every((resource) => {
      if (resource >= table.blocks.length) return true;
      return knobs.togglesOf(resource).every((toggle) => values[toggle] === 1);
    });
}

/** All that a knob feeds through toggles that are on, or that its edges are in. */
function touchedBy({ knobs }: PlanTask, values: readonly number[], knob: number): readonly number[] {
  const own = must(knobs.blocks[knob]);
  const isLever = must(knobs.knobs[knob]).kind === 'turnout';
  if (isLever || own.every((block) => must(knobs.behind[block]).length === 0)) return own;
  const found = new Set(own);
  for (const block of found)
    for (const next of must(knobs.behind[block])) if (values[next.toggle] === 1) found.add(next.block);
  return [...found];
}

const valuesAfter = (values: readonly number[], trails: TimedRun['trails']): readonly number[] =>
  trails.length === 0
    ? values
    : values.map((now, index) => trails.findLast(({ knob }) => knob === index)?.value ?? now);

/** A run as early as it may be; null where somebody is in the way or a knob stands wrong. */
export function afterRun(
  task: PlanTask,
  state: ExactState,
  taken: Uint8Array,
  run: TimedRun,
): ExactState | null {
  const { options, movers } = task;
  const { mover, enters, parents, needs, trails, clears, seconds, to } = run;
  const own = must(movers[mover]).under(must(state.standing[mover]));
  if (enters.some(({ resource }) => taken[resource] === 1 && !own.includes(resource))) return null;
  if (parents.some((parent) => taken[parent] === 1 && !own.includes(parent))) return null;
  if (needs.some(({ knob, value }) => state.values[knob] !== value)) return null;
  if (!isAlive(task, state, mover)) return null;
  let at = Math.max(state.since, must(state.ready[mover]));
  for (const { resource } of enters) at = Math.max(at, must(state.free[resource]));
  for (const parent of parents) at = Math.max(at, must(state.left[parent]));
  for (const { knob } of needs) at = Math.max(at, must(state.set[knob]));
  if (losesAtStarts(options)) at = fromStand(options, state, mover, at);
  const free = state.free.slice();
  const left = state.left.slice();
  for (const { resource, after } of clears) {
    left[resource] = at + after + options.marginSeconds;
    free[resource] = Math.max(must(free[resource]), must(left[resource]));
  }
  return {
    ...state,
    since: at,
    standing: state.standing.map((standing, index) => (index === mover ? to : standing)),
    ready: state.ready.map((ready, index) => (index === mover ? at + seconds : ready)),
    moved: state.moved.map((moved, index) => moved || index === mover),
    values: valuesAfter(state.values, trails),
    free,
    left,
    voice: at + options.talkSeconds,
    deed: { is: 'run', run, at },
    before: state,
  };
}

/** When the hands are free for one more throw. */
export function handsFrom({ options }: PlanTask, { since, hands }: ExactState): Seconds {
  const [last] = hands;
  const oldest = hands[options.throwsPerMinute - 1];
  return Math.max(
    since,
    last === undefined ? NEVER : last + options.throwSeconds,
    oldest === undefined ? NEVER : oldest + MINUTE,
  );
}

/** A throw as early as it may be; null where a train is on what it touches. */
export function afterThrow(
  task: PlanTask,
  state: ExactState,
  taken: Uint8Array,
  knob: number,
  value: number,
): ExactState | null {
  const { options, knobs, movers } = task;
  const over = touchedBy(task, state.values, knob);
  const putOff = value === 0 && must(knobs.knobs[knob]).kind === 'toggle';
  if (!putOff && over.some((block) => taken[block] === 1)) return null;
  const blocks = putOff ? over.filter((block) => taken[block] !== 1) : over;
  let at = handsFrom(task, state);
  // Under a train that stands.
  if (putOff)
    for (const [index, { under }] of movers.entries())
      if (under(must(state.standing[index])).some((resource) => over.includes(resource)))
        at = Math.max(at, must(state.ready[index]));
  for (const block of blocks) at = Math.max(at, must(state.left[block]));
  const ready = at + options.throwSeconds + options.marginSeconds;
  const free = state.free.slice();
  for (const block of blocks) free[block] = Math.max(must(free[block]), ready);
  const set = state.set.slice();
  set[knob] = ready;
  return {
    ...state,
    since: at,
    values: state.values.map((now, index) => (index === knob ? value : now)),
    free,
    set,
    hands: [at, ...state.hands].slice(0, options.throwsPerMinute),
    deed: { is: 'throw', knob, value, at, over },
    before: state,
  };
}
