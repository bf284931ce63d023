/**
 * Whether some order of runs brings every train to where it is to end up, all at once: "safe" with a witness, "gridlock" by exhaustion
 * with the trains that lock each other, or "undecided" with the effort spent. Cheap tests come first, the exact search behind them.
 */
import { drawsFrom } from '../../chance.ts';
import { partOf } from '../memory.ts';
import { moverOfGraph } from './interval-mover.ts';
import { isWitness } from './is-witness.ts';
import type { JointOutcome } from './joint-search.ts';
import { type Locked, lockOf } from './lock.ts';
import { type MoverGraph, moverGraph } from './mover-graph.ts';
import { LOCKED } from './pair-table.ts';
import { type SafeRun, searchByPriority } from './prioritized.ts';
import type { SafeTask } from './safe-task.ts';
import { pairOf, searchSet, takenBy, type Work } from './work.ts';

export interface Budget {
  /** Most states to look at, cells of pair tables counted with the joint standings. */
  readonly states: number;
  /** Asked now and then; true ends the work undecided. A lock that is proved by then may be told with more trains than it needs. */
  shouldStop?(): boolean;
}

/** The usual effort: about a second. */
export const USUAL_STATES = 3_000_000;
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
  | Undecided;

export interface Undecided {
  readonly verdict: 'undecided';
  readonly states: number;
  /** Whether it was memory that was wanting: more states would come to the same. */
  readonly isFull: boolean;
}

/** All sets of a size from a list, in order. */
function setsOf(list: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return list.flatMap((first, place) =>
    setsOf(list.slice(place + 1), size - 1).map((rest) => [first, ...rest]),
  );
}

const gridlock = (work: Work, set: readonly number[]): SafeAnswer => ({
  verdict: 'gridlock',
  locked: lockOf(work, set),
  states: work.states,
});

/** Sets of movers to look at in each round of growing effort, the whole first. */
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
    { movers, resources: work.task.table.resources, memory: work.task.memory },
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

const goesOn = (work: Work): boolean => work.states < work.budget && !work.shouldStop();

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
  let sets = roundSets(all.length);
  let isFull = false;
  for (let effort = 4_000; sets.length > 0 && goesOn(work); effort *= 8) {
    const open: (readonly number[])[] = [];
    for (const set of sets) {
      if (!goesOn(work)) break;
      const outcome = searchSet(work, set, true, effort);
      const found = answer(outcome, set);
      if (found !== null) return found;
      if (outcome.found === 'memory') isFull = true;
      else if (outcome.found === 'budget') open.push(set);
    }
    sets = open;
  }
  return { verdict: 'undecided', states: work.states, isFull: isFull && goesOn(work) };
}

/**
 * Decides whether a state is safe.
 *
 * @returns never "safe" without a witness, never "gridlock" but after an exhaustive search; "undecided" when the budget ran out
 */
export function decideSafe(task: SafeTask, budget: Budget): SafeAnswer {
  const memory = partOf(task.memory);
  const answer = decideWithin({ ...task, memory }, budget);
  memory.giveAllBack();
  return answer;
}

function decideWithin(task: SafeTask, budget: Budget): SafeAnswer {
  const isTaken = takenBy(task, task.obstacles);
  const graphs: MoverGraph[] = [];
  const shouldStop = (): boolean => budget.shouldStop?.() === true;
  const work: Work = { task, graphs, pairs: new Map(), budget: budget.states, shouldStop, states: 0 };
  for (const [index, { movements, isGoal }] of task.movers.entries()) {
    const graph = moverGraph(movements, isTaken, isGoal);
    if (graph === null) return { verdict: 'undecided', states: work.states, isFull: true };
    graphs.push(graph);
    work.states += graph.size;
    if (graph.runsLeft[0] === -1) return gridlock(work, [index]);
  }
  return decideJointly(work);
}
