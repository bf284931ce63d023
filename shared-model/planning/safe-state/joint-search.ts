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

/** States between two questions whether to stop. */
const ASK_EVERY = 1024;

/** By which run each state was come to, and from which: seven bytes a state, in arrays that double. */
function traces() {
  let before = new Int32Array(ASK_EVERY);
  let movers = new Uint8Array(ASK_EVERY);
  let places = new Uint16Array(ASK_EVERY);
  let size = 0;
  const doubled = <T extends Int32Array | Uint8Array | Uint16Array>(more: T, old: T): T => {
    more.set(old);
    return more;
  };
  return {
    /** @param place of the run among those out of the mover's standing */
    add: (from: number, mover: number, place: number): void => {
      if (size === before.length) {
        before = doubled(new Int32Array(size * 2), before);
        movers = doubled(new Uint8Array(size * 2), movers);
        places = doubled(new Uint16Array(size * 2), places);
      }
      before[size] = from;
      movers[size] = mover;
      places[size] = place;
      size += 1;
    },
    of: (state: number) => ({
      before: before[state] as number,
      mover: movers[state] as number,
      place: places[state] as number,
    }),
  };
}

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
 * @param shouldStop asked now and then; true ends the search as if the budget had run out
 * @returns a witness; "nothing" when there is none (every state was seen); "budget" when it ran out
 */
export function searchJointly(task: JointTask, budget: number, shouldStop: () => boolean): JointOutcome {
  const { movers } = task;
  const table = jointTable(movers.length);
  const cameBy = traces();
  const open = openList();
  const row = new Int32Array(movers.length);
  const owner = new Int32Array(task.resources).fill(-1);

  const begin = guess(task, row);
  if (begin === -1) return { found: 'nothing', states: 1 };
  table.add(row);
  cameBy.add(-1, 0, 0);
  open.push(0, begin);

  const trace = (state: number): { mover: number; run: GraphRun }[] => {
    const runs: { mover: number; run: GraphRun }[] = [];
    for (let at = state; at > 0; ) {
      const { before, mover, place } = cameBy.of(at);
      table.read(before, row);
      runs.push({ mover, run: must(must(must(movers[mover]).runs[row[mover] as number])[place]) });
      at = before;
    }
    return runs.reverse();
  };
  let looked = 0;
  for (let state = open.pop(); state !== undefined; state = open.pop()) {
    looked += 1;
    if (looked % ASK_EVERY === 0 && shouldStop()) return { found: 'budget', states: table.size() };
    table.read(state, row);
    if (movers.every((mover, index) => mover.runsLeft[row[index] as number] === 0))
      return { found: 'witness', runs: trace(state), states: table.size() };
    if (table.size() > budget) return { found: 'budget', states: table.size() };
    movers.forEach((mover, index) => {
      for (const resource of must(mover.under[row[index] as number])) owner[resource] = index;
    });
    for (let index = 0; index < movers.length; index += 1) {
      const standing = row[index] as number;
      for (const [place, run] of must(must(movers[index]).runs[standing]).entries()) {
        if (run.wants.some((resource) => owner[resource] !== -1 && owner[resource] !== index)) continue;
        row[index] = run.to;
        const left = guess(task, row);
        if (left !== -1) {
          const { number, added } = table.add(row);
          if (added) {
            cameBy.add(state, index, place);
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
