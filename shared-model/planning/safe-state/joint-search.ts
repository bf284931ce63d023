/**
 * The search over joint standings, one run at a time: best first towards the goals, and to the last state where there is no way.
 * It passes over every state in which two trains alone are locked already; that loses nothing, since others are only in the way.
 */
import { must } from '../track-table.ts';
import { jointTable } from './joint-table.ts';
import type { GraphRun, MoverGraph } from './mover-graph.ts';
import { LOCKED, type PairTable } from './pair-table.ts';

export interface JointTask {
  readonly movers: readonly MoverGraph[];
  /** The table of movers i and j, i < j; null where none was worked out. */
  pair(i: number, j: number): PairTable | null;
  readonly resources: number;
}

export type JointOutcome =
  | {
      readonly found: 'witness';
      readonly runs: readonly { mover: number; run: GraphRun }[];
      readonly states: number;
    }
  | { readonly found: 'nothing' | 'budget'; readonly states: number };

/** States sorted by how far they seem from the goals; the newest of the nearest comes first. */
function openList() {
  const buckets: number[][] = [];
  let nearest = 0;
  return {
    push: (state: number, left: number): void => {
      while (buckets.length <= left) buckets.push([]);
      buckets[left]?.push(state);
      if (left < nearest) nearest = left;
    },
    pop: (): number | undefined => {
      while (nearest < buckets.length && buckets[nearest]?.length === 0) nearest += 1;
      return buckets[nearest]?.pop();
    },
  };
}

/** How far a joint standing is from the goals, by pairs; -1 where a pair is locked. */
function guess(task: JointTask, row: Int32Array): number {
  const { movers } = task;
  let sum = 0;
  for (let i = 0; i < movers.length; i += 1) {
    const alone = must(must(movers[i]).runsLeft[row[i] as number]);
    if (alone === -1) return -1;
    if (movers.length === 1) return alone;
    for (let j = i + 1; j < movers.length; j += 1) {
      const table = task.pair(i, j);
      const left =
        table === null
          ? alone + must(must(movers[j]).runsLeft[row[j] as number])
          : (table.left[(row[i] as number) * table.width + (row[j] as number)] as number);
      if (left === LOCKED) return -1;
      sum += left;
    }
  }
  return sum;
}

/**
 * Searches from every mover's standing 0.
 *
 * @param budget most states to look at
 * @returns a witness; "nothing" when there is none (every state was seen); "budget" when it ran out
 */
export function searchJointly(task: JointTask, budget: number): JointOutcome {
  const { movers } = task;
  const table = jointTable(movers.length);
  const before: number[] = [];
  const by: ({ mover: number; run: GraphRun } | null)[] = [];
  const open = openList();
  const row = new Int32Array(movers.length);
  const owner = new Int32Array(task.resources).fill(-1);

  const begin = guess(task, row);
  if (begin === -1) return { found: 'nothing', states: 1 };
  table.add(row);
  before.push(-1);
  by.push(null);
  open.push(0, begin);

  const trace = (state: number): { mover: number; run: GraphRun }[] => {
    const runs: { mover: number; run: GraphRun }[] = [];
    for (let at = state; at > 0; at = must(before[at])) runs.push(must(by[at]));
    return runs.reverse();
  };
  for (let state = open.pop(); state !== undefined; state = open.pop()) {
    table.read(state, row);
    if (movers.every((mover, index) => mover.runsLeft[row[index] as number] === 0))
      return { found: 'witness', runs: trace(state), states: table.size() };
    if (table.size() > budget) return { found: 'budget', states: table.size() };
    movers.forEach((mover, index) => {
      for (const resource of must(mover.under[row[index] as number])) owner[resource] = index;
    });
    for (let index = 0; index < movers.length; index += 1) {
      const standing = row[index] as number;
      for (const run of must(must(movers[index]).runs[standing])) {
        if (run.wants.some((resource) => owner[resource] !== -1 && owner[resource] !== index)) continue;
        row[index] = run.to;
        const left = guess(task, row);
        if (left !== -1) {
          const { number, added } = table.add(row);
          if (added) {
            before.push(state);
            by.push({ mover: index, run });
            open.push(number, left);
          }
        }
      }
      row[index] = standing;
    }
    movers.forEach((mover, index) => {
      for (const resource of must(mover.under[row[index] as number])) owner[resource] = -1;
    });
  }
  return { found: 'nothing', states: table.size() };
}
