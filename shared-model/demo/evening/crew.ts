/** What a crew and the dispatcher do over and over: ask, read back, throw, advance. */
import type { BlockId, EdgeId, TrainId } from '../../ids.ts';
import { authorityOf, legsAhead } from '../../session/facts/authorities.ts';
import type { InputOf } from '../../session/input.ts';
import { judgeMove } from '../../session/orders/move-orders.ts';
import type { Throw } from '../../session/state.ts';
import { legThrows, throwsFor } from '../../session/throws.ts';
import { grant, handsFree, type Part, type Stage, say, type Words, worldNow } from './stage.ts';

/** A throw as the order that confirms it. */
function confirmed({ kind, id, to }: Throw): Words {
  if (kind === 'selector') return { do: 'turn-selector', selector: id, position: to };
  if (kind === 'turnout') return { do: 'throw-turnout', turnout: id, position: to };
  return { do: 'set-toggle', toggle: id, on: to };
}

/** Confirms every throw of a train's authority that waits for nothing, one hand movement after the other. */
export function* throwAll(stage: Stage, train: string, seconds = 2): Part {
  for (;;) {
    const ready = throwsFor(worldNow(stage), train as TrainId).find(({ waitsFor }) => waitsFor.length === 0);
    if (ready === undefined) return;
    yield* say(stage, confirmed(ready), seconds);
  }
}

/** Strokes of a destination that is typed with its train, about. */
const TYPED_MOVE = 6;

/**
 * Asks for a move, reads it back and throws what it needs.
 *
 * @param strokes what the request takes: typed, or one key where it is the way on or an ask that has become free
 */
export function* order(
  stage: Stage,
  train: string,
  to: string,
  more: object = {},
  strokes = TYPED_MOVE,
): Part {
  const event = yield* grant(stage, { do: 'request-move', train, to, ...more }, strokes);
  if (event.outcome !== 'refused') yield* throwAll(stage, train);
}

/** Runs a train to the end of its authority, a gap every `pace` seconds, and stops it there. */
export function* runOut(stage: Stage, train: string, pace: number): Part {
  for (;;) {
    const held = authorityOf(stage.evening.state, train as TrainId);
    if (held === null || held.authority.state === 'granted') return;
    yield* throwAll(stage, train);
    yield* handsFree(stage, 1);
    yield* say(stage, { do: 'advance', train }, pace);
  }
}

const free = (stage: Stage, train: string, to: string): boolean =>
  judgeMove(worldNow(stage), { do: 'request-move', train, to } as InputOf<'request-move'>).kind === 'free';

/** Blocks a train still has ahead on its authority, and the last block that it may go to. */
export function reach(
  stage: Stage,
  train: string,
): { readonly ahead: number; readonly last: BlockId | undefined } {
  const held = authorityOf(stage.evening.state, train as TrainId);
  const ahead = held === null ? [] : legsAhead(held.authority);
  return {
    ahead: ahead.length,
    last: ahead.at(-1)?.block ?? stage.evening.state.trains[train as TrainId]?.blocks[0],
  };
}

/** Blocks asked for at once, at most: one request for several keeps the talk short. */
const BLOCKS_AT_ONCE = 3;

/** The farthest of the next few edges of a round that a train would be granted now. */
function farthestFree(
  stage: Stage,
  train: string,
  edges: readonly string[],
  from: number,
): string | undefined {
  return Array.from({ length: BLOCKS_AT_ONCE }, (_, n) => edges[(from + BLOCKS_AT_ONCE - n) % edges.length])
    .filter((edge) => edge !== undefined)
    .find((edge) => free(stage, train, edge));
}

/** Whether the next block is read back and every throw for it is done. */
function mayAdvance(stage: Stage, train: string): boolean {
  const held = authorityOf(stage.evening.state, train as TrainId);
  const next = held === null ? undefined : legsAhead(held.authority)[0];
  return next?.readBack === true && legThrows(worldNow(stage), next).length === 0;
}

export interface Round {
  readonly train: string;
  /** The edges at whose far ends it may stop, one a block, in the order of travel. */
  readonly edges: readonly string[];
  /** Seconds from gap to gap. */
  readonly pace: () => number;
  /** Whether it ends where its authority leads now: asked before each further block. */
  readonly ends: (last: string | undefined) => boolean;
}

/** The key for the way on, and now and then one that puts off another train's. */
const WAY_ON = 1.3;

/** A crew that has stood so long calls before it is sent on: nobody thinks of it. */
const STOOD_SECONDS = 280;
function stoodLong({ evening, at }: Stage, train: string): boolean {
  const now = evening.state.trains[train as TrainId];
  return now?.stopped === true && at - (now.lastReportAt ?? 0) > STOOD_SECONDS;
}

/** Seconds after which somebody looks again whether a train may go on. */
const LOOK_AGAIN = 2;

/** A train goes round and round: its authority is lengthened in its last block, as soon as the blocks ahead are free; it stops where that ends. */
export function* goRound(stage: Stage, { train, edges, pace, ends }: Round): Part {
  const { blockOfEdge } = stage.evening.railroad;
  const blocks = edges.map((edge) => blockOfEdge.get(edge as EdgeId));
  let due = stage.at;
  for (;;) {
    yield* handsFree(stage, 1);
    const { ahead, last } = reach(stage, train);
    if (ends(last)) break;
    const next = ahead < 1 ? farthestFree(stage, train, edges, blocks.indexOf(last)) : undefined;
    if (next !== undefined) {
      if (stoodLong(stage, train))
        yield* say(stage, { do: 'call', cab: stage.evening.state.trains[train as TrainId]?.cab });
      yield* order(stage, train, next, {}, WAY_ON);
    } else if (stage.at >= due && mayAdvance(stage, train)) {
      yield* say(stage, { do: 'advance', train }, LOOK_AGAIN);
      due = stage.at + pace() - LOOK_AGAIN;
    } else {
      yield* throwAll(stage, train);
      yield LOOK_AGAIN;
    }
  }
  yield Math.max(0, due - stage.at);
  yield* runOut(stage, train, pace());
}
