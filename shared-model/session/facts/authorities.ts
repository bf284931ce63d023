/** Authorities in force and what of them is still ahead or still under the train. */
import type { AuthorityId, BlockId, ThrottleId, TrainId } from '../../ids.ts';
import type { Spot } from '../../railroad/travel.ts';
import type { AuthorityNow, Leg, SessionState } from '../state.ts';
import { entriesOf } from '../world.ts';

export interface InForce {
  readonly id: AuthorityId;
  readonly authority: AuthorityNow;
}

const isInForce = ({ state }: AuthorityNow): boolean => state !== 'fulfilled' && state !== 'annulled';

/** Every authority granted and not yet fulfilled or annulled, in the order of granting. */
export function authoritiesInForce(state: SessionState): readonly InForce[] {
  return entriesOf(state.authorities)
    .filter(([, authority]) => isInForce(authority))
    .map(([id, authority]) => ({ id, authority }));
}

/** The authority that a train holds; a train never holds two. */
export function authorityOf(state: SessionState, train: TrainId): InForce | null {
  return authoritiesInForce(state).find(({ authority }) => authority.train === train) ?? null;
}

/** The legs not entered yet. */
export function legsAhead(authority: AuthorityNow): readonly Leg[] {
  return authority.legs.slice(authority.at + 1);
}

/** What is still to run in the block where the head is: a gap with that block on both sides lies ahead. None where the head is elsewhere. */
export function spotsToRun(state: SessionState, authority: AuthorityNow): readonly Spot[] {
  const here = authority.legs[authority.at]?.spots ?? [];
  const head = state.trains[authority.train]?.trail[0];
  const place = here.findIndex(({ edge, toward }) => edge === head?.edge && toward === head.toward);
  return place < 0 ? [] : here.slice(place + 1);
}

/** The legs not given back: what is ahead, and what the train is still in. */
export function legsHeld(state: SessionState, authority: AuthorityNow): readonly Leg[] {
  const under = state.trains[authority.train]?.blocks ?? [];
  return authority.legs.filter((leg, index) => index > authority.at || under.includes(leg.block));
}

/** The cab that an authority leads with at its end. */
export function lastCab(authority: AuthorityNow, cab: ThrottleId): ThrottleId {
  return authority.legs.at(-1)?.cab ?? cab;
}

/** The blocks of limits: those named, and those the train stands in, but none that it came into from them (disputed); none of a move. */
export function limitsBlocks(state: SessionState, authority: AuthorityNow): readonly BlockId[] {
  if (authority.kind !== 'limits') return [];
  const under = state.trains[authority.train]?.blocks ?? [];
  const own = under.filter((block) => state.blocks[block]?.state !== 'disputed');
  return [...new Set([...authority.blocks, ...own])];
}

/** The blocks that a train is in: by the reports, and those of its limits that count as occupied. */
export function blocksIn(state: SessionState, train: TrainId): readonly BlockId[] {
  const taken = authorityOf(state, train)?.authority.taken ?? [];
  return [...new Set([...(state.trains[train]?.blocks ?? []), ...taken])];
}

/** Whether a block is within limits in force of this train. */
export function isInLimits(state: SessionState, train: TrainId, block: BlockId): boolean {
  const held = authorityOf(state, train);
  return held !== null && limitsBlocks(state, held.authority).includes(block);
}
