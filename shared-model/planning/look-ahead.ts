/** The look-ahead that the session's rules ask: can every declared train still get where it is to end up? The wiring is not looked at, nobody backs up. */
import type { BlockId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { LookAhead, LookAheadTrain } from '../session/world.ts';
import { type Memory, memoryOf } from './memory.ts';
import { movementsOf } from './movements.ts';
import { type Budget, decideSafe } from './safe-state/decide.ts';
import type { Mover, Obstacle } from './safe-state/safe-task.ts';
import { makeStanding } from './standing.ts';
import { must, type TrackTable, trackTable } from './track-table.ts';

/** Effort of one look when an order is judged, in states: tens of milliseconds at the size of the demo railroad. Beyond it the answer is undecided, and nothing is refused. */
const EFFORT: Budget = { states: 60_000 };
/** Effort of a look while somebody types: a few milliseconds. */
const GLANCE: Budget = { states: 4000 };

/** Most bytes that one look keeps: standings of trains above all, since its states are few. */
const LOOK_BYTES = 64 * 1024 * 1024;

const tables = new WeakMap<Railroad, TrackTable>();
function tableOf(railroad: Railroad): TrackTable {
  const table = tables.get(railroad) ?? trackTable(railroad);
  tables.set(railroad, table);
  return table;
}

/** The spots at which a train counts as arrived: any far end of a block, the far ends of an edge, or the tracks of a place. */
function goalSpots(
  { railroad, spots, stops, blockOf, blockNumber }: TrackTable,
  to: string,
): ReadonlySet<number> {
  const block = blockNumber.get(to as BlockId);
  const place = railroad.document.places.find(({ id }) => id === to);
  return new Set(
    spots.flatMap((spot, number) => {
      if (stops[number] !== true) return [];
      if (block !== undefined) return blockOf[number] === block ? [number] : [];
      if (place !== undefined)
        return place.at.some(({ edge, toward }) => edge === spot.edge && toward === spot.toward)
          ? [number]
          : [];
      return spot.edge === to ? [number] : [];
    }),
  );
}

const numbers = ({ blockNumber }: TrackTable, blocks: readonly BlockId[]): readonly number[] =>
  blocks.map((block) => must(blockNumber.get(block)));

function mover(table: TrackTable, train: LookAheadTrain, to: string, memory: Memory): Mover {
  const goals = goalSpots(table, to);
  const movements = movementsOf(
    table,
    { lengthMm: train.lengthMm, cab: null, beyond: numbers(table, train.beyond) },
    train.trail.map(table.spotNumber),
    false,
    memory,
  );
  return {
    id: train.train,
    movements,
    isGoal: (standing) => goals.has(movements.standing(standing).spots[0] ?? -1),
  };
}

const inBlocks = (table: TrackTable, id: string, blocks: readonly BlockId[]): Obstacle => ({
  id,
  resources: numbers(table, blocks),
});

function obstacle(table: TrackTable, train: LookAheadTrain): Obstacle {
  if (train.head === null || train.trail.length === 0) return inBlocks(table, train.train, train.blocks);
  const { under } = makeStanding(table, train.trail.map(table.spotNumber), 0, train.lengthMm);
  return { id: train.train, resources: [...under, ...numbers(table, train.beyond)] };
}

/** Trains that are declared and whose place is known move; all others, and cuts of cars, are in the way. */
const lookAheadWithin =
  (effort: Budget): LookAhead =>
  (railroad, { trains, cuts }) => {
    const table = tableOf(railroad);
    const memory = memoryOf(LOOK_BYTES);
    const moves = (train: LookAheadTrain): boolean => train.to !== null && train.head !== null;
    const answer = decideSafe(
      {
        table,
        movers: trains.flatMap((train) =>
          moves(train) && train.to !== null ? [mover(table, train, train.to, memory)] : [],
        ),
        obstacles: [
          ...trains.filter((train) => !moves(train)).map((train) => obstacle(table, train)),
          ...cuts.map((block) => inBlocks(table, `cars in ${block}`, [block])),
        ],
        memory,
      },
      effort,
    );
    if (answer.verdict !== 'gridlock') return { verdict: answer.verdict, trains: [], blocks: [] };
    return {
      verdict: 'gridlock',
      trains: answer.locked.trains as readonly TrainId[],
      blocks: answer.locked.blocks.map((block) => must(table.blocks[block])),
    };
  };

/** The look-ahead by which the host judges. */
export const lookAhead: LookAhead = lookAheadWithin(EFFORT);
/** The same question asked of a screen while it is typed: the answer is the same or undecided. */
export const glanceAhead: LookAhead = lookAheadWithin(GLANCE);
