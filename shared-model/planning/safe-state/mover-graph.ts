/** One train's part of the search for a safe state: its standings as numbers, the runs between them, and how far each is from the goal. */
import type { Movement, Movements } from '../movements.ts';
import { must } from '../track-table.ts';

/** A run of the graph; `wants` may not be had by any other train. */
export interface GraphRun {
  readonly from: number;
  readonly to: number;
  readonly wants: readonly number[];
  readonly movement: Movement;
}

export interface MoverGraph {
  readonly size: number;
  /** Resources under the train at each standing. */
  readonly under: readonly (readonly number[])[];
  /** The runs out of each standing that lead to where the goal can still be reached, and those into it. */
  readonly runs: readonly (readonly GraphRun[])[];
  readonly into: readonly (readonly GraphRun[])[];
  /** Least number of runs to the goal with every other train that moves away; -1 where it cannot be reached. */
  readonly runsLeft: Int32Array;
}

/** Standings that one train may have, so that a graph is soon made: beyond this the answer is "undecided". */
export const MOST_STANDINGS = 20_000;

/** Least number of runs from each standing to the goal; -1: none. */
function distances(into: readonly (readonly GraphRun[])[], goals: readonly number[]): Int32Array {
  const left = new Int32Array(into.length).fill(-1);
  for (const goal of goals) left[goal] = 0;
  const queue = [...goals];
  for (let next = 0; next < queue.length; next += 1) {
    const at = must(queue[next]);
    for (const { from } of must(into[at]))
      if (left[from] === -1) {
        left[from] = must(left[at]) + 1;
        queue.push(from);
      }
  }
  return left;
}

/**
 * Explores everything that a train can do among things that stay where they are.
 *
 * @param isTaken whether a resource is had by something that never moves
 * @param isGoal whether a standing is where the train is to end up
 * @returns the graph, standing 0 being where it stands; null where it has more than `MOST_STANDINGS`, or no memory for all
 */
export function moverGraph(
  movements: Movements,
  isTaken: (resource: number) => boolean,
  isGoal: (standing: number) => boolean,
): MoverGraph | null {
  const numberOf = new Map<number, number>([[0, 0]]);
  const found = [0];
  const all: GraphRun[][] = [];
  for (let next = 0; next < found.length; next += 1) {
    if (found.length > MOST_STANDINGS) return null;
    const open = movements.runs(must(found[next])).filter(({ wants }) => !wants.some(isTaken));
    all.push(
      open.map((movement): GraphRun => {
        const known = numberOf.get(movement.to);
        if (known === undefined) {
          numberOf.set(movement.to, found.length);
          found.push(movement.to);
        }
        return { from: next, to: known ?? found.length - 1, wants: movement.wants, movement };
      }),
    );
  }
  if (!movements.isWhole()) return null;
  const into: GraphRun[][] = all.map(() => []);
  for (const list of all) for (const run of list) into[run.to]?.push(run);
  const goals = found.flatMap((standing, number) => (isGoal(standing) ? [number] : []));
  const runsLeft = distances(into, goals);
  const leadsOn = ({ to }: GraphRun): boolean => runsLeft[to] !== -1;
  return {
    size: found.length,
    under: found.map((standing) => movements.standing(standing).under),
    runs: all.map((list) => (list.every(leadsOn) ? list : list.filter(leadsOn))),
    into: into.map((list, number) => (runsLeft[number] === -1 ? [] : list)),
    runsLeft,
  };
}

/** Least millimetres from each standing to a goal, by relaxing backwards until nothing changes; Infinity where it cannot be reached. */
export function mmToGoal(graph: MoverGraph): Float64Array {
  const left = new Float64Array(graph.size).fill(Number.POSITIVE_INFINITY);
  const queue: number[] = [];
  for (let standing = 0; standing < graph.size; standing += 1)
    if (graph.runsLeft[standing] === 0) {
      left[standing] = 0;
      queue.push(standing);
    }
  for (let next = 0; next < queue.length; next += 1) {
    const at = must(queue[next]);
    for (const run of must(graph.into[at])) {
      const mm = must(left[at]) + run.movement.lengthMm;
      if (mm < must(left[run.from])) {
        left[run.from] = mm;
        queue.push(run.from);
      }
    }
  }
  return left;
}
