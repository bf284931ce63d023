/**
 * A plan as orders: what the dispatcher grants, and when. A move of the plan goes on as blocks come free ahead of it; a grant needs
 * them free when it is given, so such a move is granted piece by piece, each piece when the train before is clear of it. The first piece is
 * granted before its words: what is not free by then does not keep the train waiting where it stands, but comes later.
 */
import type { BlockId, EdgeId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { InputOf } from '../../session/input.ts';
import type { Seconds } from '../../units.ts';
import type { PlanMove } from '../plan-answer.ts';
import type { Situation } from '../situation.ts';
import type { BlockTime, PlanTiming } from '../timing.ts';

/** What implies an order that was planned or rehearsed: the log tells it from those that were typed. */
export const MADE_REAL = 'made real from a rehearsal';

export interface PlanOrder {
  /** When it is given: before the words of its move are said, or when the last block that it takes comes free. */
  readonly at: Seconds;
  readonly train: TrainId;
  /** The place of its move in the plan's list. */
  readonly move: number;
  readonly input: InputOf<'request-move'>;
  /** The stays in blocks that it takes the train into, in order. */
  readonly enters: readonly BlockTime[];
}

/** Consecutive edges of one block. */
interface Piece {
  readonly block: BlockId;
  readonly edges: readonly EdgeId[];
}

function piecesOf(railroad: Railroad, edges: readonly EdgeId[]): readonly Piece[] {
  const pieces: { block: BlockId; edges: EdgeId[] }[] = [];
  for (const edge of edges) {
    const block = railroad.blockOfEdge.get(edge);
    if (block === undefined) continue;
    const last = pieces.at(-1);
    if (last?.block === block) last.edges.push(edge);
    else pieces.push({ block, edges: [edge] });
  }
  return pieces;
}

/** When the train that has a block before this stay is clear of it; minus infinity where none has. */
function freeFrom(stays: readonly BlockTime[], stay: BlockTime): Seconds {
  const before = stays.filter(
    (other) =>
      other.block === stay.block &&
      other.train !== stay.train &&
      (other.headIn ?? Number.NEGATIVE_INFINITY) < (stay.headIn ?? Number.NEGATIVE_INFINITY),
  );
  return Math.max(Number.NEGATIVE_INFINITY, ...before.map(({ tailOut }) => tailOut ?? 0));
}

/** Whether a train that ends on a piece reaches back over the gap into the block before. */
function reachesBack(railroad: Railroad, lengthMm: number, { edges }: Piece): boolean {
  const room = edges.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);
  return lengthMm > room + 1e-6;
}

function ordersOfMove(
  railroad: Railroad,
  situation: Situation,
  stays: readonly BlockTime[],
  move: PlanMove,
  index: number,
  wordsFrom: Seconds,
): readonly PlanOrder[] {
  const length = situation.trains.find(({ id }) => id === move.train)?.lengthMm ?? 0;
  const own = stays.filter(
    ({ train, headIn }) =>
      train === move.train && headIn !== null && headIn >= move.start - 0.01 && headIn <= move.end + 0.01,
  );
  const orders: PlanOrder[] = [];
  let at = wordsFrom;
  let group: Piece[] = [];
  let enters: BlockTime[] = [];
  const give = () => {
    const last = group.at(-1);
    const to = last?.edges.at(-1);
    if (last === undefined || to === undefined) return;
    const via = group.slice(0, -1).map(({ block }) => block);
    const input: InputOf<'request-move'> = {
      do: 'request-move',
      train: move.train,
      to,
      ...(via.length === 0 ? {} : { via }),
      ...(reachesBack(railroad, length, last) ? { overhang: true } : {}),
    };
    orders.push({ at, train: move.train, move: index, input, enters });
  };
  let next = 0;
  for (const piece of piecesOf(railroad, move.edges)) {
    const stay = own.slice(next).find(({ block }) => block === piece.block);
    if (stay !== undefined) next = own.indexOf(stay) + 1;
    const free = stay === undefined ? Number.NEGATIVE_INFINITY : freeFrom(stays, stay);
    if (free > at + 1e-6) {
      give();
      group = [];
      enters = [];
      at = free;
    }
    group.push(piece);
    if (stay !== undefined) enters.push(stay);
  }
  give();
  return orders;
}

/**
 * The orders that carry a plan out, in the order in which they are given.
 *
 * @param timing the times of that same plan
 */
export function ordersOfPlan(
  railroad: Railroad,
  situation: Situation,
  moves: readonly PlanMove[],
  timing: PlanTiming,
): readonly PlanOrder[] {
  return moves
    .flatMap((move, index) => {
      // What is not granted yet cannot be said, nor read back.
      const wordsFrom = timing.voice.find(({ of }) => of === index)?.at ?? move.start;
      return ordersOfMove(railroad, situation, timing.blocks, move, index, wordsFrom);
    })
    .sort((one, other) => one.at - other.at);
}
