/**
 * The one best path, for the question that is asked most: Dijkstra 1959 on flat arrays, outwards from the origin until the nearest goal
 * is settled. Of two ways to a state that are equally long, the one that comes first in the order of paths is kept, so that the answer
 * is the first of `bestPaths`.
 */
import { numberHeap } from '../number-heap.ts';
import { compareEdges, fits, type Path, type Settled } from './path-order.ts';
import type { PathQuery } from './path-query.ts';
import type { Step, WayGraph } from './way-graph.ts';

/** The steps of a graph one after the other, those out of state s from `first[s]` to `first[s + 1]`. */
interface FlatGraph {
  readonly steps: readonly Step[];
  readonly first: Int32Array;
  readonly to: Int32Array;
  readonly length: Float64Array;
  readonly reverse: Uint8Array;
  /** Whether every state is a place of its own, so that a shortest path is at no place twice by itself. */
  readonly isPlain: boolean;
  /** Working memory of one search, made once: least length, passages in reverse, the step by which each state is reached, settled or not. */
  readonly least: Float64Array;
  readonly reverses: Int32Array;
  readonly by: Int32Array;
  readonly done: Uint8Array;
}

const flattened = new WeakMap<WayGraph, FlatGraph>();

function flatten(graph: WayGraph): FlatGraph {
  const known = flattened.get(graph);
  if (known !== undefined) return known;
  const steps = graph.steps.flat();
  const first = new Int32Array(graph.steps.length + 1);
  graph.steps.forEach((ways, state) => {
    first[state + 1] = (first[state] as number) + ways.length;
  });
  const made = {
    steps,
    first,
    to: Int32Array.from(steps, ({ to }) => to),
    length: Float64Array.from(steps, ({ length }) => length),
    reverse: Uint8Array.from(steps, ({ lever }) => (lever?.position === 'reverse' ? 1 : 0)),
    least: new Float64Array(graph.steps.length),
    reverses: new Int32Array(graph.steps.length),
    by: new Int32Array(graph.steps.length),
    done: new Uint8Array(graph.steps.length),
    isPlain: graph.place.every((place, state) => place === state) && steps.every((step) => step.length > 0),
  };
  flattened.set(graph, made);
  return made;
}

/** Whether `nearestPath` may be asked about a graph: every state is a place of its own, and every step has a length. */
export function isPlainGraph(graph: WayGraph): boolean {
  return flatten(graph).isPlain;
}

/**
 * The first of the best paths from the origin to a goal, whatever turnouts it needs in both settings.
 *
 * @returns undefined when there is no way
 */
export function nearestPath(query: PathQuery, settled: Settled): Path | undefined {
  const { origin, goals, isOpen } = query;
  const { steps, first, to, length, reverse, least, reverses, by, done } = flatten(query.graph);
  least.fill(Number.POSITIVE_INFINITY);
  done.fill(0);
  const queue = numberHeap();

  const pathBy = (last: number): Step[] => {
    const path: Step[] = [];
    for (let at = last; at >= 0; ) {
      const step = steps[at] as Step;
      path.push(step);
      at = step.from === origin ? -1 : (by[step.from] as number);
    }
    return path.reverse();
  };
  const isBetter = (place: number, state: number, sum: number, passed: number): boolean => {
    const known = least[state] as number;
    if (sum !== known) return sum < known;
    if (passed !== reverses[state]) return passed < (reverses[state] as number);
    return compareEdges(pathBy(place), pathBy(by[state] as number)) < 0;
  };
  const goOn = (state: number, sum: number, passed: number): void => {
    const end = first[state + 1] as number;
    for (let place = first[state] as number; place < end; place += 1) {
      const next = to[place] as number;
      if (done[next] === 1 || (next === origin && !goals.has(next)) || !isOpen(next)) continue;
      if (settled.size > 0 && !fits(steps[place] as Step, settled)) continue;
      const through = sum + (length[place] as number);
      if (through > (least[next] as number)) continue;
      const inReverse = passed + (reverse[place] as number);
      if (!isBetter(place, next, through, inReverse)) continue;
      if (through < (least[next] as number)) queue.push(next, through);
      least[next] = through;
      reverses[next] = inReverse;
      by[next] = place;
    }
  };
  goOn(origin, 0, 0);
  let best: Step[] | undefined;
  let bestLength = Number.POSITIVE_INFINITY;
  let bestReverses = 0;
  for (
    let next = queue.least();
    next <= bestLength && next < Number.POSITIVE_INFINITY;
    next = queue.least()
  ) {
    const state = queue.take();
    if (done[state] === 1) continue;
    done[state] = 1;
    if (!goals.has(state)) {
      goOn(state, least[state] as number, reverses[state] as number);
      continue;
    }
    const path = pathBy(by[state] as number);
    const passed = reverses[state] as number;
    if (
      best === undefined ||
      passed < bestReverses ||
      (passed === bestReverses && compareEdges(path, best) < 0)
    ) {
      best = path;
      bestLength = least[state] as number;
      bestReverses = passed;
    }
  }
  return best;
}
