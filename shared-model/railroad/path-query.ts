/** A question for paths, and the least distances to its goals, which guide the search. */
import TinyQueue from 'tinyqueue';
import { fits, type Settled } from './path-order.ts';
import type { WayGraph } from './way-graph.ts';

export interface PathQuery {
  readonly graph: WayGraph;
  readonly origin: number;
  /** States that end a path; none leads on from one. The origin ends none before it was left. */
  readonly goals: ReadonlySet<number>;
  /** Whether a state may be entered at all. */
  readonly isOpen: (state: number) => boolean;
}

/**
 * Least distance from every state to a goal, in millimetres, whatever is passed twice (Dijkstra 1959, backwards from the goals);
 * Infinity where none can be reached. It never says too much, also after more turnouts are settled.
 *
 * @param nearest stop when the origin is reached: what lies farther off then says that distance, and no more is known of it
 */
export function distancesToGoal(query: PathQuery, settled: Settled, nearest: boolean): Float64Array {
  const { graph, goals, origin } = query;
  const distance = new Float64Array(graph.steps.length).fill(Number.POSITIVE_INFINITY);
  const queue = new TinyQueue<{ state: number; distance: number }>([], (a, b) => a.distance - b.distance);
  for (const state of goals) {
    if (!query.isOpen(state)) continue;
    distance[state] = 0;
    queue.push({ state, distance: 0 });
  }
  const stopAt = nearest && !goals.has(origin) ? origin : -1;
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (next.distance > (distance[next.state] ?? 0)) continue;
    if (next.state === stopAt) return distance.map((known) => Math.min(known, next?.distance ?? known));
    for (const step of graph.into[next.state] ?? []) {
      const before = step.from;
      if (!fits(step, settled) || !(query.isOpen(before) || before === origin)) continue;
      const through = next.distance + step.length;
      if (through >= (distance[before] ?? 0)) continue;
      distance[before] = through;
      queue.push({ state: before, distance: through });
    }
  }
  return distance;
}
