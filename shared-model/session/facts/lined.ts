/** Whether a block is ready for a train: its feed on the cab, and every turnout of the route in it standing right. */
import type { BlockId, TrainId } from '../../ids.ts';
import type { Leg } from '../state.ts';
import type { World } from '../world.ts';
import { feedNow } from './feed.ts';

/** Turnouts of a leg that do not stand as its route needs; a self-lining one is moved by the train. */
export function wrongTurnouts({ state }: World, leg: Leg): readonly Leg['turnouts'][number][] {
  return leg.turnouts.filter(
    (turnout) => !turnout.selfLined && state.turnouts[turnout.id]?.position !== turnout.position,
  );
}

/** Whether a leg of an authority is lined. */
export function isLegLined(world: World, leg: Leg): boolean {
  return feedNow(world, leg.block) === leg.cab && wrongTurnouts(world, leg).length === 0;
}

/** Whether a block that a train has entered stands right for it: its feed, and the turnouts of the route by which it came. */
export function standsRightFor(world: World, block: BlockId, train: TrainId): boolean {
  const now = world.state.blocks[block];
  const cab = now?.train === train ? now.cab : world.state.trains[train]?.cab;
  if (cab === null || cab === undefined || feedNow(world, block) !== cab) return false;
  // The leg by which it came in, never the stretch on which a later grant found it.
  const came = (leg: Leg, index: number, at: number): boolean =>
    index > 0 && index <= at && leg.block === block;
  const latest = Object.values(world.state.authorities).findLast(
    (authority) =>
      authority.train === train && authority.legs.some((leg, index) => came(leg, index, authority.at)),
  );
  return (latest?.legs ?? [])
    .filter((leg, index) => came(leg, index, latest?.at ?? 0))
    .every((leg) => wrongTurnouts(world, leg).length === 0);
}
