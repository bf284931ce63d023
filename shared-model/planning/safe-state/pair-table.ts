/**
 * What two trains can still do when all others that move are away: for every pair of standings, the least number of runs that brings
 * both to their goals at once. Where two alone cannot, no number of trains can, since others are only in the way.
 */
import { must } from '../track-table.ts';
import type { GraphRun, MoverGraph } from './mover-graph.ts';
import { type Bits, makeBits, meet } from './resource-bits.ts';

/** No order of runs brings both to their goals. */
export const LOCKED = 0xffff;

export interface PairTable {
  /** Runs left for the standings of the one (row) and the other; LOCKED: none. */
  readonly left: Uint16Array;
  readonly width: number;
}

interface Side {
  readonly graph: MoverGraph;
  readonly under: readonly Bits[];
  readonly wants: ReadonlyMap<GraphRun, Bits>;
}

function sideOf(graph: MoverGraph, resources: number): Side {
  return {
    graph,
    under: graph.under.map((list) => makeBits(list, resources)),
    wants: new Map(graph.runs.flat().map((run) => [run, makeBits(run.wants, resources)])),
  };
}

/**
 * Works the table out backwards from the pairs of goals, breadth first.
 *
 * @param resources how many resources there are
 */
export function pairTable(oneGraph: MoverGraph, otherGraph: MoverGraph, resources: number): PairTable {
  const one = sideOf(oneGraph, resources);
  const other = sideOf(otherGraph, resources);
  const width = otherGraph.size;
  const left = new Uint16Array(oneGraph.size * width).fill(LOCKED);
  const queue: number[] = [];
  const reach = (row: number, column: number, runs: number): void => {
    const cell = row * width + column;
    if (left[cell] !== LOCKED || meet(must(one.under[row]), must(other.under[column]))) return;
    left[cell] = runs;
    queue.push(cell);
  };
  for (let row = 0; row < oneGraph.size; row += 1)
    if (oneGraph.runsLeft[row] === 0)
      for (let column = 0; column < width; column += 1)
        if (otherGraph.runsLeft[column] === 0) reach(row, column, 0);
  for (let next = 0; next < queue.length; next += 1) {
    const cell = must(queue[next]);
    const row = Math.floor(cell / width);
    const column = cell % width;
    const runs = Math.min(must(left[cell]) + 1, LOCKED - 1);
    for (const run of must(oneGraph.into[row]))
      if (!meet(must(one.wants.get(run)), must(other.under[column]))) reach(run.from, column, runs);
    for (const run of must(otherGraph.into[column]))
      if (!meet(must(other.wants.get(run)), must(one.under[row]))) reach(row, run.from, runs);
  }
  return { left, width };
}
