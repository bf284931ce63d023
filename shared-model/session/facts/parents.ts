/** Blocks that belong to a train because a section behind them was granted to it. */
import type { BlockId, ThrottleId } from '../../ids.ts';
import type { AuthorityNow } from '../state.ts';
import type { World } from '../world.ts';
import { legsAhead } from './authorities.ts';
import { ownToggle, parentsOf } from './feed.ts';
import { cabUnder } from './standing.ts';

export interface HeldParent {
  readonly block: BlockId;
  readonly cab: ThrottleId;
}

/** A section's parents as far as the toggles between are on, nearest first. */
function parentsWhileOn({ railroad, state }: World, section: BlockId): readonly BlockId[] {
  const chain = [section, ...parentsOf(railroad, section)];
  const firstOff = chain.findIndex((block) => {
    const toggle = ownToggle(railroad, block);
    return toggle !== null && state.toggles[toggle]?.on !== true;
  });
  return chain.slice(1, firstOff < 0 ? undefined : firstOff + 1);
}

/**
 * The parents that an authority holds: of every section ahead (of limits: not yet occupied), whatever its toggle; of the sections the
 * train is in, until it moves (in limits: until the read-back) whatever the toggle, then while the toggles are on.
 */
export function heldParents(world: World, authority: AuthorityNow): readonly HeldParent[] {
  const { railroad, state } = world;
  const train = state.trains[authority.train];
  const cab = train?.cab ?? null;
  const held: HeldParent[] = [];
  const hold = (blocks: readonly BlockId[], on: ThrottleId | null): void => {
    for (const block of blocks)
      if (on !== null && !held.some((other) => other.block === block)) held.push({ block, cab: on });
  };
  for (const leg of legsAhead(authority)) hold(parentsOf(railroad, leg.block), leg.cab);
  const limits = authority.kind === 'limits';
  if (limits)
    for (const block of authority.blocks)
      hold(authority.taken.includes(block) ? parentsWhileOn(world, block) : parentsOf(railroad, block), cab);
  const moved =
    authority.state === 'running' || authority.at > 0 || (limits && authority.state !== 'granted');
  for (const block of train?.blocks ?? [])
    hold(
      moved ? parentsWhileOn(world, block) : parentsOf(railroad, block),
      cabUnder(world, authority.train, block),
    );
  return held;
}
