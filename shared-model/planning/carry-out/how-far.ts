/** How far each train of a kept plan has come, read from the reports: which blocks of its way it has entered, and which it has left. */
import type { BlockId, TrainId } from '../../ids.ts';
import type { SessionEvent } from '../../session/event.ts';
import { evolve } from '../../session/fold.ts';
import type { SessionState } from '../../session/state.ts';
import type { KeptPlan } from './keep-order.ts';

export interface Come {
  /** Blocks of its way that it has entered, those it stood in at the beginning among them. */
  readonly entered: number;
  /** Blocks of its way that it has left. */
  readonly left: number;
  /** A block that its head is in and that is not on its way from here; null where it is as planned. */
  readonly astray: BlockId | null;
}

export type HowFar = ReadonlyMap<TrainId, Come>;

/** Nobody has gone on yet. */
export const atTheBeginning = ({ begun }: KeptPlan): HowFar =>
  new Map([...begun].map(([train, entered]) => [train, { entered, left: 0, astray: null }]));

/** Its tail's place: the blocks from the head back that it is still in. */
function leftBehind(way: readonly BlockId[], entered: number, under: readonly BlockId[]): number {
  let left = entered - 1;
  while (left > 0 && under.includes(way[left - 1] as BlockId)) left -= 1;
  return left;
}

function cameTo(way: readonly BlockId[], before: Come, under: readonly BlockId[]): Come {
  const [head] = under;
  if (head === undefined) return before;
  const isHere = way[before.entered - 1] === head;
  const ahead = way.indexOf(head, before.entered);
  // A correction may put it back.
  const behind = way.lastIndexOf(head, before.entered - 1);
  const place = isHere ? before.entered - 1 : ahead >= 0 ? ahead : behind;
  if (place < 0) return { ...before, astray: head };
  const entered = place + 1;
  return { entered, left: leftBehind(way, entered, under), astray: null };
}

/** Whether a train has run its orders and is clear behind: after that it goes where it likes. */
function isThrough({ ways, orders }: KeptPlan, train: TrainId, { entered, left }: Come): boolean {
  const end = ways.get(train)?.length ?? 0;
  return entered === end && left >= end - 1 && orders.some(({ order }) => order.train === train);
}

/** How far the trains are when the evening has gone on to this state. */
export function goneOn(plan: KeptPlan, before: HowFar, state: SessionState): HowFar {
  const { ways } = plan;
  return new Map(
    [...before].map(([train, come]) => {
      const now = state.trains[train];
      if (now === undefined || !now.placed || now.lost || isThrough(plan, train, come)) return [train, come];
      return [train, cameTo(ways.get(train) ?? [], come, now.blocks)];
    }),
  );
}

/**
 * How far the trains are after some of an evening's events.
 *
 * @param far how far they were before them
 * @param before the state before the first of them
 * @param from number of the first entry that counts
 */
export function howFarAfter(
  kept: KeptPlan,
  far: HowFar,
  before: SessionState,
  events: readonly SessionEvent[],
  from: number,
): HowFar {
  let now = far;
  let state = before;
  for (const event of events) {
    const { trains } = state;
    state = evolve(state, event);
    if (event.entry >= from && state.trains !== trains) now = goneOn(kept, now, state);
  }
  return now;
}
