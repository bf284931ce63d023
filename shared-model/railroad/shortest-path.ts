/**
 * The best path from one state to a goal: A* with the exact remaining distances as its guide, after Dijkstra 1959 and Hart, Nilsson
 * and Raphael 1968. "Best" is a total order, so that the same railroad always gives the same route: shorter; then fewer passages of
 * turnouts in reverse; then the lists of edges entered, compared element by element; then fewer reversals.
 */
import TinyQueue from 'tinyqueue';
import type { TurnoutPosition } from './document.ts';
import type { Step, WayGraph } from './way-graph.ts';

export interface PathQuery {
  readonly graph: WayGraph;
  readonly origin: number;
  /** Whether a state ends a path; paths never lead on from one. The origin ends none before it was left. */
  readonly isGoal: (state: number) => boolean;
  /** Whether a state may be entered at all. */
  readonly isOpen: (state: number) => boolean;
}

/** What is fixed already when a path is completed from its beginning. */
export interface Beginning {
  readonly steps: readonly Step[];
  /** Steps that must not come next. */
  readonly barred: ReadonlySet<Step>;
  /** Turnouts, by number, that may be passed in this position only. */
  readonly settled: ReadonlyMap<number, TurnoutPosition>;
}

export type Path = readonly Step[];

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
/** Length of a path in millimetres, added up in the order of travel. */
export const pathLength = (path: Path): number => sum(path.map((step) => step.length));
const reversePassages = (path: Path): number =>
  path.filter((step) => step.lever?.position === 'reverse').length;
const ranks = (path: Path): readonly number[] =>
  path.flatMap((step) => (step.rank === null ? [] : [step.rank]));

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i += 1) {
    const difference = (a[i] ?? 0) - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}

/** The order of paths with one origin; negative when `a` is better. */
export function comparePaths(a: Path, b: Path): number {
  return (
    pathLength(a) - pathLength(b) ||
    reversePassages(a) - reversePassages(b) ||
    compareLists(ranks(a), ranks(b)) ||
    a.length - b.length
  );
}

const fits = (step: Step, settled: ReadonlyMap<number, TurnoutPosition>): boolean =>
  step.lever === null || (settled.get(step.lever.number) ?? step.lever.position) === step.lever.position;

/**
 * Least distance from every state to a goal, in millimetres, whatever is passed twice; Infinity where none can be reached.
 * It never says too much, also after more turnouts are settled: that is what the guide of A* needs.
 */
export function distancesToGoal(
  query: PathQuery,
  settled: ReadonlyMap<number, TurnoutPosition>,
): Float64Array {
  const { graph } = query;
  const distance = new Float64Array(graph.steps.length).fill(Number.POSITIVE_INFINITY);
  const queue = new TinyQueue<{ state: number; distance: number }>([], (a, b) => a.distance - b.distance);
  graph.steps.forEach((_, state) => {
    if (!query.isGoal(state) || !query.isOpen(state)) return;
    distance[state] = 0;
    queue.push({ state, distance: 0 });
  });
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (next.distance > (distance[next.state] ?? 0)) continue;
    for (const step of graph.into[next.state] ?? []) {
      const before = step.from;
      if (!fits(step, settled) || !(query.isOpen(before) || before === query.origin)) continue;
      const through = next.distance + step.length;
      if (through >= (distance[before] ?? 0)) continue;
      distance[before] = through;
      queue.push({ state: before, distance: through });
    }
  }
  return distance;
}

/** A path under way; kept as a chain, since most are given up. */
interface Reach {
  readonly state: number;
  readonly length: number;
  readonly reverses: number;
  readonly step: Step | null;
  readonly before: Reach | null;
  readonly atLeast: number;
}

function stepsOf(reach: Reach): Step[] {
  const steps: Step[] = [];
  for (let at: Reach | null = reach; at !== null; at = at.before)
    if (at.step !== null) steps.unshift(at.step);
  return steps;
}

function compareReaches(a: Reach, b: Reach): number {
  const difference = a.length - b.length || a.reverses - b.reverses;
  if (difference !== 0) return difference;
  const left = stepsOf(a);
  const right = stepsOf(b);
  return compareLists(ranks(left), ranks(right)) || left.length - right.length;
}

/**
 * A shade less than the exact remaining distance. Sums of lengths with fractions differ in the last digit with the order of adding;
 * the shade keeps the guide below the truth, and lets every path of equal length come up before a goal is settled.
 */
const SHADE = 1 - 1e-9;

/**
 * Completes a beginning to a goal in the best way, without being at any place twice (see `WayGraph.place`).
 *
 * @param remaining the answer of `distancesToGoal`
 * @returns all steps, the beginning included; undefined when there is no way
 */
export function completePath(
  query: PathQuery,
  beginning: Beginning,
  remaining: Float64Array,
): Path | undefined {
  const { graph } = query;
  const start = beginning.steps.at(-1)?.to ?? query.origin;
  const used = new Set(
    [query.origin, ...beginning.steps.map((step) => step.to)].map((state) => graph.place[state]),
  );
  const best = new Map<number, Reach>();
  const queue = new TinyQueue<Reach>([], (a, b) => a.atLeast - b.atLeast);
  queue.push({
    state: start,
    length: pathLength(beginning.steps),
    reverses: 0,
    step: null,
    before: null,
    atLeast: 0,
  });
  let found: Reach | undefined;
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (found !== undefined && at.atLeast > found.length) break;
    if (at.step !== null && best.get(at.state) !== at) continue;
    if (at.step !== null && query.isGoal(at.state)) {
      if (found === undefined || compareReaches(at, found) < 0) found = at;
      continue;
    }
    for (const step of graph.steps[at.state] ?? []) {
      if (at.step === null && beginning.barred.has(step)) continue;
      if (!fits(step, beginning.settled) || !query.isOpen(step.to)) continue;
      if (used.has(graph.place[step.to]) && !query.isGoal(step.to)) continue;
      const left = remaining[step.to] ?? Number.POSITIVE_INFINITY;
      if (left === Number.POSITIVE_INFINITY) continue;
      const length = at.length + step.length;
      const next: Reach = {
        state: step.to,
        length,
        reverses: at.reverses + (step.lever?.position === 'reverse' ? 1 : 0),
        step,
        before: at,
        atLeast: length + left * SHADE,
      };
      const known = best.get(step.to);
      if (known !== undefined && compareReaches(next, known) >= 0) continue;
      best.set(step.to, next);
      queue.push(next);
    }
  }
  return found === undefined ? undefined : [...beginning.steps, ...stepsOf(found)];
}
