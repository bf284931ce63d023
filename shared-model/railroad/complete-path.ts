/** The best path from a beginning to a goal: A* (Hart, Nilsson and Raphael 1968), labels in the place of distances where turnouts are watched. */
import TinyQueue from 'tinyqueue';
import { compareEdges, fits, neededLever, type Path, pathLength, type Settled } from './path-order.ts';
import type { PathQuery } from './path-query.ts';
import type { Step } from './way-graph.ts';

/** What is fixed already when a path is completed. */
export interface Beginning {
  readonly steps: Path;
  /** Steps that must not come next. */
  readonly barred: ReadonlySet<Step>;
  readonly settled: Settled;
}

/** What guides and bounds the search. */
export interface Guide {
  /** The answer of `distancesToGoal`. */
  readonly remaining: Float64Array;
  /** Turnouts, by number, that a path must not need in both settings: each with its bit in the labels. */
  readonly watched: ReadonlyMap<number, number>;
  /** How many states may still be looked at, over all searches for one question. */
  readonly effort: { left: number };
}

/** A path under way; kept as a chain, since most are given up. */
interface Reach {
  readonly state: number;
  readonly length: number;
  readonly reverses: number;
  /** The watched turnouts that it passed: two bits each, normal and reverse. */
  readonly passed: bigint;
  readonly step: Step | null;
  readonly before: Reach | null;
  readonly atLeast: number;
}

function stepsOf(reach: Reach): Step[] {
  const steps: Step[] = [];
  for (let at: Reach | null = reach; at !== null; at = at.before) if (at.step !== null) steps.push(at.step);
  return steps.reverse();
}

function compareReaches(a: Reach, b: Reach): number {
  return a.length - b.length || a.reverses - b.reverses || compareEdges(stepsOf(a), stepsOf(b));
}

/** Whether nothing that the second path can still do is better than what the first can: not better now, and no turnout bound more. */
function outdoes(one: Reach, other: Reach): boolean {
  return (one.passed & ~other.passed) === 0n && compareReaches(one, other) <= 0;
}

/** The bit of a passage in the labels, and that of the same turnout the other way; none for turnouts that are not watched. */
function bitsOf(step: Step, watched: ReadonlyMap<number, number>): readonly [own: bigint, other: bigint] {
  const lever = neededLever(step);
  const index = lever === null ? undefined : watched.get(lever.number);
  if (index === undefined) return [0n, 0n];
  const normal = 1n << BigInt(2 * index);
  return lever?.position === 'normal' ? [normal, normal << 1n] : [normal << 1n, normal];
}

/**
 * A shade less than the exact remaining distance. Sums of lengths with fractions differ in the last digit with the order of adding;
 * the shade keeps the guide below the truth, and lets every path of equal length come up before a goal is settled.
 */
const SHADE = 1 - 1e-9;

/**
 * Completes a beginning to a goal in the best way that is at no place twice (see `WayGraph.place`).
 *
 * @returns all steps, the beginning included; undefined when there is no way, or the effort is spent
 */
export function completePath(query: PathQuery, beginning: Beginning, guide: Guide): Path | undefined {
  const { graph, goals } = query;
  const { remaining, watched, effort } = guide;
  const start = beginning.steps.at(-1)?.to ?? query.origin;
  const used = new Set(
    [query.origin, ...beginning.steps.map((step) => step.to)].map((state) => graph.place[state]),
  );
  /** The reaches of each state that none outdoes. */
  const best = new Map<number, readonly Reach[]>();
  const queue = new TinyQueue<Reach>([], (a, b) => a.atLeast - b.atLeast);
  queue.push({
    state: start,
    length: pathLength(beginning.steps),
    reverses: 0,
    passed: 0n,
    step: null,
    before: null,
    atLeast: 0,
  });
  let found: Reach | undefined;
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (found !== undefined && at.atLeast > found.length) break;
    if (at.step !== null && best.get(at.state)?.includes(at) !== true) continue;
    if (at.step !== null && goals.has(at.state)) {
      if (found === undefined || compareReaches(at, found) < 0) found = at;
      continue;
    }
    effort.left -= 1;
    if (effort.left < 0) return undefined;
    for (const step of graph.steps[at.state] ?? []) {
      if (at.step === null && beginning.barred.has(step)) continue;
      if (!fits(step, beginning.settled) || !query.isOpen(step.to)) continue;
      if (used.has(graph.place[step.to]) && !goals.has(step.to)) continue;
      const left = remaining[step.to] ?? Number.POSITIVE_INFINITY;
      const [own, other] = bitsOf(step, watched);
      if (left === Number.POSITIVE_INFINITY || (at.passed & other) !== 0n) continue;
      const length = at.length + step.length;
      const next: Reach = {
        state: step.to,
        length,
        reverses: at.reverses + (step.lever?.position === 'reverse' ? 1 : 0),
        passed: at.passed | own,
        step,
        before: at,
        atLeast: length + left * SHADE,
      };
      const known = best.get(step.to) ?? [];
      if (known.some((reach) => outdoes(reach, next))) continue;
      best.set(step.to, [...known.filter((reach) => !outdoes(next, reach)), next]);
      queue.push(next);
    }
  }
  return found === undefined ? undefined : [...beginning.steps, ...stepsOf(found)];
}
