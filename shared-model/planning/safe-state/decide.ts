/**
 * Whether some order of runs brings every train to where it is to end up, all at once: "safe" with a witness, "gridlock" by exhaustion
 * with the trains that lock each other, or "undecided" with the effort spent. Cheap tests come first, the exact search behind them.
 */
import { drawsFrom } from '../../chance.ts';
import { must } from '../track-table.ts';
import { moverOfGraph } from './interval-mover.ts';
import { isWitness } from './is-witness.ts';
import { type JointOutcome, type JointTask, searchJointly } from './joint-search.ts';
import { type MoverGraph, moverGraph } from './mover-graph.ts';
import { LOCKED, type PairTable, pairTable } from './pair-table.ts';
import { type SafeRun, searchByPriority } from './prioritized.ts';
import type { Obstacle, SafeTask } from './safe-task.ts';

export interface Budget {
  /** Most states to look at, cells of pair tables counted with the joint standings. */
  readonly states: number;
  /** Asked now and then; true ends the work undecided. A lock that is proved by then may be told with more trains than it needs. */
  shouldStop?(): boolean;
}

/** The usual effort: about a second. */
export const USUAL_STATES = 3_000_000;
/** Cells of one pair table, two bytes each; a larger pair is searched without one. */
const MOST_PAIR_CELLS = 4_000_000;
/** Joint standings of the first search, before any pair table is worked out. */
const FIRST_LOOK = 400;
/** Orders of priority that are tried, and labels made with them, before a lock is looked for. */
const PRIORITY_TRIES = 24;
const MOST_PRIORITY_LABELS = 150_000;
/** The same question gives the same answer. */
const PRIORITY_SEED = 1;
/** Movers up to which every set of them is tried for a lock; beyond it sets of three alone. */
const MOST_FOR_ALL_SETS = 6;

export type SafeAnswer =
  | { readonly verdict: 'safe'; readonly runs: readonly SafeRun[]; readonly states: number }
  | { readonly verdict: 'gridlock'; readonly locked: Locked; readonly states: number }
  | { readonly verdict: 'undecided'; readonly states: number };

export interface Locked {
  /** Ids of the movers and obstacles that lock each other: without any one of them it could not be proved. */
  readonly trains: readonly string[];
  /** Numbers of the blocks that they stand in. */
  readonly blocks: readonly number[];
}

/** Everything that one decision works with; `states` grows as it goes. */
interface Work {
  readonly task: SafeTask;
  readonly graphs: readonly MoverGraph[];
  readonly pairs: Map<string, PairTable | null>;
  readonly budget: number;
  shouldStop(): boolean;
  states: number;
}

function takenBy(task: SafeTask, obstacles: readonly Obstacle[]): (resource: number) => boolean {
  const taken = new Uint8Array(task.table.resources);
  for (const { resources } of obstacles) for (const resource of resources) taken[resource] = 1;
  return (resource) => taken[resource] === 1;
}

function pairOf(work: Work, i: number, j: number): PairTable | null {
  const key = `${i} ${j}`;
  const known = work.pairs.get(key);
  if (known !== undefined) return known;
  const one = must(work.graphs[i]);
  const other = must(work.graphs[j]);
  const cells = one.size * other.size;
  const made =
    cells > MOST_PAIR_CELLS || work.states + cells > work.budget || work.shouldStop()
      ? null
      : pairTable(one, other, work.task.table.resources);
  if (made !== null) work.states += cells;
  work.pairs.set(key, made);
  return made;
}

/** Searches for some of the movers alone, the other movers being away. */
function searchSet(work: Work, set: readonly number[], withPairs: boolean, budget: number): JointOutcome {
  const task: JointTask = {
    movers: set.map((index) => must(work.graphs[index])),
    pair: (i, j) => (withPairs ? pairOf(work, must(set[i]), must(set[j])) : null),
    resources: work.task.table.resources,
  };
  const most = Math.min(budget, Math.max(0, work.budget - work.states));
  const outcome = searchJointly(task, most, work.shouldStop);
  work.states += outcome.states;
  return outcome;
}

/** All sets of a size from a list, in order. */
function setsOf(list: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return list.flatMap((first, place) =>
    setsOf(list.slice(place + 1), size - 1).map((rest) => [first, ...rest]),
  );
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
  const work: Work = {
    task: { ...task, movers: set.map((index) => must(task.movers[index])) },
    graphs,
    pairs: new Map(),
    budget: DROP_BUDGET,
    shouldStop,
    states: 0,
  };
  const places = set.map((_, place) => place);
  return searchSet(work, places, set.length > 1, DROP_BUDGET).found === 'nothing';
}

/** Leaves out, one by one, what the lock does not need. */
function lockOf(work: Work, set: readonly number[]): Locked {
  const { task, shouldStop } = work;
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

const gridlock = (work: Work, set: readonly number[]): SafeAnswer => ({
  verdict: 'gridlock',
  locked: lockOf(work, set),
  states: work.states,
});

/** Sets of movers to look at in one round of growing effort, the whole first. */
function roundSets(count: number): readonly (readonly number[])[] {
  const all = Array.from({ length: count }, (_, index) => index);
  const sizes = count <= MOST_FOR_ALL_SETS ? all.slice(3) : [3];
  return [all, ...sizes.flatMap((size) => setsOf(all, size))];
}

/** A witness by priorities; null where none was found soon. */
function witnessByPriority(work: Work): readonly SafeRun[] | null {
  const movers = work.graphs.map(moverOfGraph);
  const most = Math.min(MOST_PRIORITY_LABELS, work.budget - work.states);
  const { runs, labels } = searchByPriority(
    { movers, resources: work.task.table.resources },
    drawsFrom(PRIORITY_SEED),
    {
      tries: PRIORITY_TRIES,
      accept: (found) => isWitness(work.task, found),
      shouldStop: (made) => made > most || work.shouldStop(),
    },
  );
  work.states += labels;
  return runs;
}

function decideJointly(work: Work): SafeAnswer {
  const all = work.graphs.map((_, index) => index);
  const answer = (outcome: JointOutcome, set: readonly number[]): SafeAnswer | null => {
    if (outcome.found === 'nothing') return gridlock(work, set);
    if (outcome.found !== 'witness' || set.length < all.length) return null;
    const runs = outcome.runs.map(({ mover, run }) => ({ mover, movement: run.movement }));
    return { verdict: 'safe', runs, states: work.states };
  };
  const early = answer(searchSet(work, all, false, FIRST_LOOK), all);
  if (early !== null) return early;
  const byPriority = witnessByPriority(work);
  if (byPriority !== null) return { verdict: 'safe', runs: byPriority, states: work.states };
  for (const [i, j] of setsOf(all, 2) as readonly [number, number][])
    if (pairOf(work, i, j)?.left[0] === LOCKED) return gridlock(work, [i, j]);
  const settled = new Set<string>();
  for (let effort = 4_000; work.states < work.budget && !work.shouldStop(); effort *= 8)
    for (const set of roundSets(all.length)) {
      if (work.states >= work.budget || work.shouldStop() || settled.has(set.join())) continue;
      const outcome = searchSet(work, set, true, effort);
      const found = answer(outcome, set);
      if (found !== null) return found;
      if (outcome.found === 'witness') settled.add(set.join());
    }
  return { verdict: 'undecided', states: work.states };
}

/**
 * Decides whether a state is safe.
 *
 * @returns never "safe" without a witness, never "gridlock" but after an exhaustive search; "undecided" when the budget ran out
 */
export function decideSafe(task: SafeTask, budget: Budget = { states: USUAL_STATES }): SafeAnswer {
  const isTaken = takenBy(task, task.obstacles);
  const graphs: MoverGraph[] = [];
  const shouldStop = (): boolean => budget.shouldStop?.() === true;
  const work: Work = { task, graphs, pairs: new Map(), budget: budget.states, shouldStop, states: 0 };
  for (const [index, { movements, isGoal }] of task.movers.entries()) {
    const graph = moverGraph(movements, isTaken, isGoal);
    if (graph === null) return { verdict: 'undecided', states: work.states };
    graphs.push(graph);
    work.states += graph.size;
    if (graph.runsLeft[0] === -1) return gridlock(work, [index]);
  }
  return decideJointly(work);
}
