/**
 * What two trains can still do when all others that move are away: for every pair of standings, the least number of runs that brings
 * both to their goals at once. Where two alone cannot, no number of trains can, since others are only in the way.
 */
import type { Memory } from '../memory.ts';
import { must } from '../track-table.ts';
import type { MoverGraph } from './mover-graph.ts';
import { type BitSets, bitSets, bytesOfBitSets, meet } from './resource-bits.ts';

/** No order of runs brings both to their goals. */
export const LOCKED = 0xffff;

export interface PairTable {
  /** Runs left for the standings of the one (row) and the other; LOCKED: none. */
  readonly left: Uint16Array;
  readonly width: number;
}

/** One train of the pair: what is under it by standing, and what the runs into each standing want, numbered from `firstInto` on. */
interface Side {
  readonly under: BitSets;
  readonly wants: BitSets;
  readonly firstInto: Int32Array;
}

function sideOf(graph: MoverGraph, resources: number): Side {
  const firstInto = new Int32Array(graph.size);
  for (let at = 1; at < graph.size; at += 1)
    firstInto[at] = (firstInto[at - 1] as number) + must(graph.into[at - 1]).length;
  return {
    under: bitSets(graph.under, resources),
    wants: bitSets(
      graph.into.flatMap((runs) => runs.map(({ wants }) => wants)),
      resources,
    ),
    firstInto,
  };
}

/** Bytes of a table, and of what is needed besides while it is worked out: the sides, and a queue that every cell comes into once. */
function bytesOf(one: MoverGraph, other: MoverGraph, resources: number) {
  const cells = one.size * other.size;
  const ofSide = ({ size, into }: MoverGraph): number =>
    size * Int32Array.BYTES_PER_ELEMENT +
    bytesOfBitSets(size + into.reduce((sum, runs) => sum + runs.length, 0), resources);
  return {
    table: cells * Uint16Array.BYTES_PER_ELEMENT,
    besides: cells * Int32Array.BYTES_PER_ELEMENT + ofSide(one) + ofSide(other),
  };
}

/**
 * Works the table out backwards from the pairs of goals, breadth first.
 *
 * @param resources how many resources there are
 * @param memory the table's stays taken
 * @returns null where there is no memory for it
 */
export function pairTable(
  oneGraph: MoverGraph,
  otherGraph: MoverGraph,
  resources: number,
  memory: Memory,
): PairTable | null {
  const bytes = bytesOf(oneGraph, otherGraph, resources);
  if (!memory.take(bytes.table + bytes.besides)) return null;
  const one = sideOf(oneGraph, resources);
  const other = sideOf(otherGraph, resources);
  const width = otherGraph.size;
  const left = new Uint16Array(oneGraph.size * width).fill(LOCKED);
  const queue = new Int32Array(left.length);
  let size = 0;
  const reach = (row: number, column: number, runs: number): void => {
    const cell = row * width + column;
    if (left[cell] !== LOCKED || meet(one.under, row, other.under, column)) return;
    left[cell] = runs;
    queue[size] = cell;
    size += 1;
  };
  for (let row = 0; row < oneGraph.size; row += 1)
    if (oneGraph.runsLeft[row] === 0)
      for (let column = 0; column < width; column += 1)
        if (otherGraph.runsLeft[column] === 0) reach(row, column, 0);
  for (let next = 0; next < size; next += 1) {
    const cell = queue[next] as number;
    const row = Math.floor(cell / width);
    const column = cell % width;
    const runs = Math.min((left[cell] as number) + 1, LOCKED - 1);
    for (const [place, run] of must(oneGraph.into[row]).entries())
      if (!meet(one.wants, (one.firstInto[row] as number) + place, other.under, column))
        reach(run.from, column, runs);
    for (const [place, run] of must(otherGraph.into[column]).entries())
      if (!meet(other.wants, (other.firstInto[column] as number) + place, one.under, row))
        reach(row, run.from, runs);
  }
  memory.giveBack(bytes.besides);
  return { left, width };
}
