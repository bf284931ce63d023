/** What a crew and the dispatcher do over and over: ask, read back, throw, advance. */
import type { BlockId, EdgeId, TrainId } from '../../ids.ts';
import { authorityOf, legsAhead } from '../../session/facts/authorities.ts';
import type { InputOf } from '../../session/input.ts';
import { judgeMove } from '../../session/orders/move-orders.ts';
import type { Throw } from '../../session/state.ts';
import { legThrows, throwsFor } from '../../session/throws.ts';
import { type Part, type Stage, say, type Words, worldNow } from './stage.ts';

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

/** Reads back what a train holds. */
export function* readBack(stage: Stage, train: string): Part {
  const held = authorityOf(stage.evening.state, train as TrainId);
  if (held !== null) yield* say(stage, { do: 'acknowledge', authority: held.id }, 3);
}

/** Asks for a move, reads it back and throws what it needs. */
export function* order(stage: Stage, train: string, to: string, more: object = {}): Part {
  const event = yield* say(stage, { do: 'request-move', train, to, ...more });
  if (event.outcome === 'refused') return;
  yield* readBack(stage, train);
  yield* throwAll(stage, train);
}

/** Runs a train to the end of its authority, a gap every `pace` seconds, and stops it there. */
export function* runOut(stage: Stage, train: string, pace: number): Part {
  for (;;) {
    const held = authorityOf(stage.evening.state, train as TrainId);
    if (held === null || held.authority.state === 'granted') return;
    yield* throwAll(stage, train);
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
  readonly pace: number;
  /** Whether it ends where its authority leads now: asked before each further block. */
  readonly ends: (last: string | undefined) => boolean;
}

/** A train goes round and round, its authority lengthened while the blocks ahead are free; then it stops where that ends. */
export function* goRound(stage: Stage, { train, edges, pace, ends }: Round): Part {
  const { blockOfEdge } = stage.evening.railroad;
  const blocks = edges.map((edge) => blockOfEdge.get(edge as EdgeId));
  for (;;) {
    const { ahead, last } = reach(stage, train);
    if (ends(last)) break;
    const next = ahead < 2 ? farthestFree(stage, train, edges, blocks.indexOf(last)) : undefined;
    if (next !== undefined) yield* order(stage, train, next);
    yield* throwAll(stage, train);
    if (mayAdvance(stage, train)) yield* say(stage, { do: 'advance', train }, pace);
    else yield 3;
  }
  yield* runOut(stage, train, pace);
}
