/**
 * The search over joint standings, one run at a time: best first towards the goals, and to the last state where there is no way.
 * It passes over every state in which two trains alone are locked already; that loses nothing, since others are only in the way.
 */
import { type Memory, partOf } from '../memory.ts';
import { must } from '../track-table.ts';
import { intPages } from './int-pages.ts';
import { FULL, jointTable, KNOWN } from './joint-table.ts';
import type { GraphRun, MoverGraph } from './mover-graph.ts';
import { openList } from './open-list.ts';
import { LOCKED, type PairTable } from './pair-table.ts';

export interface JointTask {
  readonly movers: readonly MoverGraph[];
  /** The table of movers i and j, i < j; null where none was worked out. */
  pair(i: number, j: number): PairTable | null;
  readonly resources: number;
  /** What the search may have of it; it is given back at the end. */
  readonly memory: Memory;
}

export type JointOutcome =
  | {
      readonly found: 'witness';
      readonly runs: readonly { mover: number; run: GraphRun }[];
      readonly states: number;
    }
  | { readonly found: 'nothing' | 'budget' | 'memory'; readonly states: number };

/** States between two questions whether to stop. */
const ASK_EVERY = 1024;

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

/** Columns of what is kept besides a state: from which it was come to, by which mover, by which of the runs out of its standing. */
const [BEFORE, MOVER, PLACE, LINKS] = [0, 1, 2, 3];

/**
 * Searches from every mover's standing 0.
 *
 * @param budget most states to look at
 * @param shouldStop asked now and then; true ends the search as if the budget had run out
 * @returns a witness; "nothing" when there is none (every state was seen); "budget" or "memory" when that ran out
 */
export function searchJointly(task: JointTask, budget: number, shouldStop: () => boolean): JointOutcome {
  const memory = partOf(task.memory);
  const outcome = searchWithin({ ...task, memory }, budget, shouldStop);
  memory.giveAllBack();
  return outcome;
}

function searchWithin(task: JointTask, budget: number, shouldStop: () => boolean): JointOutcome {
  const { movers, memory } = task;
  const table = jointTable(movers.length, memory);
  const links = intPages(LINKS, memory);
  const open = openList(memory);
  const row = new Int32Array(movers.length);
  const owner = new Int32Array(task.resources).fill(-1);

  const begin = guess(task, row);
  if (begin === -1) return { found: 'nothing', states: 1 };

  /** Adds the row, if it is new; false where there is no memory for it. */
  const add = (left: number, before: number, mover: number, place: number): boolean => {
    const number = table.add(row);
    if (number === FULL) return false;
    if (number === KNOWN) return true;
    if (!links.reach(number)) return false;
    links.set(number, BEFORE, before);
    links.set(number, MOVER, mover);
    links.set(number, PLACE, place);
    return open.push(number, left);
  };
  const trace = (state: number): { mover: number; run: GraphRun }[] => {
    const runs: { mover: number; run: GraphRun }[] = [];
    for (let at = state; at > 0; at = links.get(at, BEFORE)) {
      const mover = links.get(at, MOVER);
      table.read(links.get(at, BEFORE), row);
      const runsOut = must(must(movers[mover]).runs[row[mover] as number]);
      runs.push({ mover, run: must(runsOut[links.get(at, PLACE)]) });
    }
    return runs.reverse();
  };
  const end = (found: 'nothing' | 'budget' | 'memory'): JointOutcome => ({ found, states: table.size() });

  if (!add(begin, -1, 0, 0)) return end('memory');
  let looked = 0;
  for (let state = open.pop(); state >= 0; state = open.pop()) {
    looked += 1;
    if (looked % ASK_EVERY === 0 && shouldStop()) return end('budget');
    table.read(state, row);
    if (movers.every((mover, index) => mover.runsLeft[row[index] as number] === 0))
      return { found: 'witness', runs: trace(state), states: table.size() };
    if (table.size() > budget) return end('budget');
    movers.forEach((mover, index) => {
      for (const resource of must(mover.under[row[index] as number])) owner[resource] = index;
    });
    for (let index = 0; index < movers.length; index += 1) {
      const standing = row[index] as number;
      for (const [place, run] of must(must(movers[index]).runs[standing]).entries()) {
        if (run.wants.some((resource) => owner[resource] !== -1 && owner[resource] !== index)) continue;
        row[index] = run.to;
        const left = guess(task, row);
        if (left !== -1 && !add(left, state, index, place)) return end('memory');
      }
      row[index] = standing;
    }
    movers.forEach((mover, index) => {
      for (const resource of must(mover.under[row[index] as number])) owner[resource] = -1;
    });
  }
  return end('nothing');
}
