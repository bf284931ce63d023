/** One move laid out for the rules: the legs to be granted, with the cab of each, and the whole way from the tail to the end. */
import type { BlockId, NodeId, ThrottleId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Route } from '../../railroad/route.ts';
import type { Spot } from '../../railroad/travel.ts';
import { authorityOf, lastCab, legsAhead, spotsToRun } from '../facts/authorities.ts';
import { passageBetween } from '../facts/standing.ts';
import type { Leg, LegTurnout } from '../state.ts';
import type { World } from '../world.ts';

export interface MoveCase {
  readonly train: TrainId;
  /** The cab the train is on now. */
  readonly cab: ThrottleId;
  /** Track still to run in the block where the head is, as its authority has it: a gap with one block on both sides lies ahead. */
  readonly granted: readonly Spot[];
  /** More track asked for in that block. */
  readonly here: Leg | null;
  /** Every block from the one after the train's present head on: what an authority still has ahead, then what is asked for. */
  readonly legs: readonly Leg[];
  /** How many of `legs` the train's authority already has. */
  readonly held: number;
  readonly joining: string | undefined;
  readonly together: readonly TrainId[];
  readonly overhang: boolean;
}

/**
 * The turnouts passed along spots, `before` being the spot from which the first is entered; each once, but one that is passed and then
 * trailed (it lines itself) both ways.
 */
export function turnoutsAlong(
  railroad: Railroad,
  before: Spot,
  spots: readonly Spot[],
): readonly LegTurnout[] {
  const turnouts: LegTurnout[] = [];
  let from = before;
  for (const spot of spots) {
    const passage = passageBetween(railroad, from, spot);
    if (passage?.setting !== undefined) {
      const selfLined = passage.selfLined === true;
      if (!turnouts.some((known) => known.id === passage.through && known.selfLined === selfLined))
        turnouts.push({ id: passage.through, position: passage.setting, selfLined });
    }
    from = spot;
  }
  return turnouts;
}

/** The cab of each block of a way: the train's, changed where a hand-off was agreed. */
export function cabAlong(
  handOffs: readonly { readonly block: BlockId; readonly cab: ThrottleId }[],
  start: ThrottleId,
  blocks: readonly BlockId[],
): readonly ThrottleId[] {
  let cab = start;
  return blocks.map((block) => {
    cab = handOffs.find((other) => other.block === block)?.cab ?? cab;
    return cab;
  });
}

/** The legs of a route from a train's head or from the end of its authority. The first is the rest of the block it starts in. */
export function legsOfRoute(world: World, train: TrainId, route: Route, cab: ThrottleId): readonly Leg[] {
  const handOffs = world.state.handOffs.filter((handOff) => handOff.train === train);
  const [start, ...entered] = route.stretches;
  if (start === undefined) throw new Error('a route has at least the stretch on which the train stands');
  const cabs = cabAlong(
    handOffs,
    cab,
    entered.map(({ block }) => block),
  );
  const leg = (
    block: BlockId,
    gap: NodeId | null,
    spots: readonly Spot[],
    before: Spot | undefined,
    on: ThrottleId,
  ): Leg => ({
    block,
    gap,
    spots,
    turnouts: before === undefined ? [] : turnoutsAlong(world.railroad, before, spots),
    cab: on,
    readBack: false,
  });
  const legs: Leg[] = [leg(start.block, null, start.spots.slice(1), start.spots[0], cab)];
  let before = start.spots.at(-1);
  entered.forEach(({ block, gap, spots }, index) => {
    legs.push(leg(block, gap, spots, before, cabs[index] ?? cab));
    before = spots.at(-1);
  });
  return legs;
}

/** Lays out a request: where an authority is in force it is lengthened, so what it still has ahead is looked at too. */
export function moveCase(
  world: World,
  train: TrainId,
  route: Route,
  wish: {
    readonly joining?: string | undefined;
    readonly together?: readonly TrainId[] | undefined;
    readonly overhang?: boolean | undefined;
  },
): MoveCase {
  const cab = world.state.trains[train]?.cab;
  if (cab === null || cab === undefined) throw new Error(`${train} has no cab`);
  const held = authorityOf(world.state, train)?.authority;
  const ahead = held === undefined ? [] : legsAhead(held);
  const start = held === undefined ? cab : lastCab(held, cab);
  const [rest, ...asked] = legsOfRoute(world, train, route, start);
  const last = ahead.at(-1);
  const extended =
    last === undefined || rest === undefined
      ? ahead
      : [
          ...ahead.slice(0, -1),
          { ...last, spots: [...last.spots, ...rest.spots], turnouts: [...last.turnouts, ...rest.turnouts] },
        ];
  return {
    train,
    cab,
    granted: held === undefined ? [] : spotsToRun(world.state, held),
    here: last === undefined && rest !== undefined && rest.spots.length > 0 ? rest : null,
    legs: [...extended, ...asked],
    held: ahead.length,
    joining: wish.joining,
    together: wish.together ?? [],
    overhang: wish.overhang ?? false,
  };
}

/** The spots that are still to run in the block where the head is. */
export function spotsHere(moving: MoveCase): readonly Spot[] {
  return [...moving.granted, ...(moving.here?.spots ?? [])];
}

/** Every spot of the case in travel order, from the head's own on. */
export function spotsAhead(moving: MoveCase): readonly Spot[] {
  return [...spotsHere(moving), ...moving.legs.flatMap((leg) => leg.spots)];
}
