/** What one decision works with: the trains as graphs, the tables of pairs as they are worked out, the effort spent so far. */
import { must } from '../track-table.ts';
import { type JointOutcome, searchJointly } from './joint-search.ts';
import type { MoverGraph } from './mover-graph.ts';
import { type PairTable, pairTable } from './pair-table.ts';
import type { Obstacle, SafeTask } from './safe-task.ts';

/** Everything that one decision works with; `states` grows as it goes. */
export interface Work {
  readonly task: SafeTask;
  readonly graphs: readonly MoverGraph[];
  readonly pairs: Map<string, PairTable | null>;
  readonly budget: number;
  shouldStop(): boolean;
  states: number;
}

/** Cells of one pair table; a larger pair is searched without one. */
const MOST_PAIR_CELLS = 4_000_000;

export function takenBy(task: SafeTask, obstacles: readonly Obstacle[]): (resource: number) => boolean {
  const taken = new Uint8Array(task.table.resources);
  for (const { resources } of obstacles) for (const resource of resources) taken[resource] = 1;
  return (resource) => taken[resource] === 1;
}

/** The table of two movers; null where it would cost too much. */
export function pairOf(work: Work, i: number, j: number): PairTable | null {
  const key = `${i} ${j}`;
  const known = work.pairs.get(key);
  if (known !== undefined) return known;
  const one = must(work.graphs[i]);
  const other = must(work.graphs[j]);
  const cells = one.size * other.size;
  const made =
    cells > MOST_PAIR_CELLS || work.states + cells > work.budget || work.shouldStop()
      ? null
      : pairTable(one, other, work.task.table.resources, work.task.memory);
  if (made !== null) work.states += cells;
  work.pairs.set(key, made);
  return made;
}

/** Searches for some of the movers alone, the other movers being away. */
export function searchSet(
  work: Work,
  set: readonly number[],
  withPairs: boolean,
  budget: number,
): JointOutcome {
  const most = Math.min(budget, Math.max(0, work.budget - work.states));
  const outcome = searchJointly(
    {
      movers: set.map((index) => must(work.graphs[index])),
      pair: (i, j) => (withPairs ? pairOf(work, must(set[i]), must(set[j])) : null),
      resources: work.task.table.resources,
      memory: work.task.memory,
    },
    most,
    work.shouldStop,
  );
  work.states += outcome.states;
  return outcome;
}
