/** Which of the trains that were shown to be locked lock each other: what the lock does not need is left out, one by one. */
import { partOf } from '../memory.ts';
import { must } from '../track-table.ts';
import { type MoverGraph, moverGraph } from './mover-graph.ts';
import type { Obstacle, SafeTask } from './safe-task.ts';
import { searchSet, takenBy, type Work } from './work.ts';

export interface Locked {
  /** Ids of the movers and obstacles that lock each other: without any one of them it could not be proved. */
  readonly trains: readonly string[];
  /** Numbers of the blocks that they stand in. */
  readonly blocks: readonly number[];
}

/** Effort to find that one train less would still be locked, in states. */
const DROP_BUDGET = 50_000;

/** Whether some of the movers among some of the obstacles are locked, by an exact search within a budget. */
function isLocked(
  task: SafeTask,
  set: readonly number[],
  obstacles: readonly Obstacle[],
  shouldStop: () => boolean,
): boolean {
  const isTaken = takenBy(task, obstacles);
  const graphs: MoverGraph[] = [];
  for (const index of set) {
    const { movements, isGoal } = must(task.movers[index]);
    const graph = moverGraph(movements, isTaken, isGoal);
    if (graph === null) return false;
    graphs.push(graph);
  }
  const memory = partOf(task.memory);
  const work: Work = {
    task: { ...task, movers: set.map((index) => must(task.movers[index])), memory },
    graphs,
    pairs: new Map(),
    budget: DROP_BUDGET,
    shouldStop,
    states: 0,
  };
  const places = set.map((_, place) => place);
  const { found } = searchSet(work, places, set.length > 1, DROP_BUDGET);
  memory.giveAllBack();
  return found === 'nothing';
}

/** The lock among movers that are locked together with the obstacles. */
export function lockOf({ task, shouldStop }: Work, set: readonly number[]): Locked {
  let movers = [...set];
  let obstacles = [...task.obstacles];
  for (const index of set) {
    const fewer = movers.filter((other) => other !== index);
    if (fewer.length > 0 && isLocked(task, fewer, obstacles, shouldStop)) movers = fewer;
  }
  if (isLocked(task, movers, [], shouldStop)) obstacles = [];
  for (const obstacle of [...obstacles]) {
    const fewer = obstacles.filter((other) => other !== obstacle);
    if (isLocked(task, movers, fewer, shouldStop)) obstacles = fewer;
  }
  const under = [
    ...movers.flatMap((index) => must(task.movers[index]).movements.standing(0).under),
    ...obstacles.flatMap(({ resources }) => resources),
  ];
  return {
    trains: [...movers.map((index) => must(task.movers[index]).id), ...obstacles.map(({ id }) => id)],
    blocks: [...new Set(under)]
      .filter((resource) => resource < task.table.blocks.length)
      .sort((a, b) => a - b),
  };
}
