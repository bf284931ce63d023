/** `safe`: the answer for a situation, and the look-ahead that the session asks for. */
import type { BlockId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { type Memory, memoryOf } from './memory.ts';
import { movementsOf } from './movements.ts';
import { type Budget, decideSafe, USUAL_STATES } from './safe-state/decide.ts';
import type { Mover, Obstacle, SafeTask } from './safe-state/safe-task.ts';
import type { Situation, SituationTrain } from './situation.ts';
import { makeStanding } from './standing.ts';
import { must, type TrackTable, trackTable } from './track-table.ts';

/** What `safe` answers: shaped as the command line prints it. */
export interface SafeVerdict {
  readonly verdict: 'safe' | 'gridlock' | 'undecided';
  /** In order, one run each: the train goes on to the next gap or end of track, in that block. */
  readonly witness?: readonly { readonly train: TrainId; readonly to: BlockId }[];
  readonly locked?: { readonly trains: readonly TrainId[]; readonly blocks: readonly BlockId[] };
  /** States looked at. */
  readonly states: number;
  /** Of an undecided one, whether it was memory that was wanting: more states would come to the same. */
  readonly isFull?: true;
}

/** How much a question may cost: states looked at, and bytes kept. */
export interface SafeBudget extends Budget {
  /** Most bytes that are kept at a time; the usual ones where nothing is said. */
  readonly bytes?: number;
}

/** The mover of a situation's train: with its cab, and its destination block as the goal. */
export function moverOf(
  table: TrackTable,
  train: SituationTrain,
  to: BlockId,
  reversals: boolean,
  memory: Memory,
): Mover {
  const movements = movementsOf(
    table,
    { lengthMm: train.lengthMm, cab: train.cab },
    train.trail.map(table.spotNumber),
    reversals,
    memory,
  );
  const goal = must(table.blockNumber.get(to));
  return { id: train.id, movements, isGoal: (standing) => movements.standing(standing).block === goal };
}

const obstacleOf = (table: TrackTable, train: SituationTrain): Obstacle => ({
  id: train.id,
  resources: makeStanding(table, train.trail.map(table.spotNumber), 0, train.lengthMm).under,
});

/** The task of a situation: trains with a destination move, the others are in the way. */
function safeTask(railroad: Railroad, situation: Situation, memory: Memory): SafeTask {
  const table = trackTable(railroad);
  return {
    table,
    movers: situation.trains.flatMap((train) =>
      train.to === null ? [] : [moverOf(table, train, train.to, situation.reversals, memory)],
    ),
    obstacles: situation.trains.flatMap((train) => (train.to === null ? [obstacleOf(table, train)] : [])),
    memory,
  };
}

/**
 * Whether every train of a situation can still get to its destination, all of them at once.
 *
 * @param budget the usual one takes about a second
 */
export function safe(
  railroad: Railroad,
  situation: Situation,
  budget: SafeBudget = { states: USUAL_STATES },
): SafeVerdict {
  const task = safeTask(railroad, situation, memoryOf(budget.bytes));
  const answer = decideSafe(task, budget);
  const blockId = (block: number): BlockId => must(task.table.blocks[block]);
  switch (answer.verdict) {
    case 'safe':
      return {
        verdict: 'safe',
        witness: answer.runs.map(({ mover, movement }) => ({
          train: must(task.movers[mover]).id as TrainId,
          to: blockId(movement.end.block),
        })),
        states: answer.states,
      };
    case 'gridlock':
      return {
        verdict: 'gridlock',
        locked: { trains: answer.locked.trains as TrainId[], blocks: answer.locked.blocks.map(blockId) },
        states: answer.states,
      };
    case 'undecided':
      return { verdict: 'undecided', states: answer.states, ...(answer.isFull ? { isFull: true } : {}) };
  }
}
