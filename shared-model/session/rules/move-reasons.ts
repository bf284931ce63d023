/** Every reason against a move, in the order that the table fixes: blocks, then turnouts and crossings, then the rest. */

import type { Spot } from '../../railroad/travel.ts';
import type { Refusal } from '../../refusal.ts';
import { parentsOf } from '../facts/feed.ts';
import { spotsUnder } from '../facts/standing.ts';
import { unique, type World } from '../world.ts';
import { blockReasons, inTableOrder, parentReasons } from './block-reasons.ts';
import { gridlockAhead } from './gridlock-ahead.ts';
import { type MoveCase, spotsAhead, spotsHere } from './move-case.ts';
import { liveTrains, loads, selectorsAlong, tagReasons, tooLong, wayReasons } from './way-reasons.ts';

/** The same code about the same things only once. */
export function onlyOnce(reasons: readonly Refusal[]): readonly Refusal[] {
  const seen = new Set<string>();
  return reasons.filter(({ code, about }) => {
    const key = JSON.stringify([code, about]);
    const first = !seen.has(key);
    seen.add(key);
    return first;
  });
}

/** Whether the train's own tail is still in the block of a leg at the moment the head crosses the gap into it: by length alone. */
function ownTailIn(world: World, moving: MoveCase, index: number): boolean {
  const train = world.state.trains[moving.train];
  const leg = moving.legs[index];
  if (train === undefined || leg === undefined) return false;
  const before: readonly Spot[] = [
    ...spotsHere(moving),
    ...moving.legs.slice(0, index).flatMap((earlier) => earlier.spots),
  ];
  const trail = [...[...before].reverse(), ...train.trail];
  return spotsUnder(world.railroad, { trail, length: train.length }).some(
    (spot) => world.railroad.blockOfEdge.get(spot.edge) === leg.block,
  );
}

/** Reasons of the sections that the train stands in, head first: their parents are needed too. */
export function parentsOfStanding(
  world: World,
  train: MoveCase['train'],
  cab: MoveCase['cab'],
): readonly Refusal[] {
  const blocks = world.state.trains[train]?.blocks ?? [];
  return blocks.flatMap((block) =>
    inTableOrder(
      parentsOf(world.railroad, block).flatMap((parent) => parentReasons(world, parent, train, cab)),
    ),
  );
}

/** The reasons about the blocks of a move from one leg on. */
export function legReasons(world: World, moving: MoveCase, from = 0): readonly Refusal[] {
  return moving.legs.flatMap((leg, index) =>
    index < from
      ? []
      : blockReasons(world, {
          block: leg.block,
          train: moving.train,
          cab: leg.cab,
          cabBefore: moving.legs[index - 1]?.cab ?? moving.cab,
          gap: leg.gap,
          joining: index === moving.legs.length - 1 ? moving.joining : undefined,
          ownTail: ownTailIn(world, moving, index),
        }),
  );
}

/** All reasons against a move but those that need a look ahead. */
export function moveReasons(world: World, moving: MoveCase): readonly Refusal[] {
  const head = world.state.trains[moving.train]?.trail[0];
  const cabs = unique([moving.cab, ...moving.legs.map((leg) => leg.cab)]);
  return onlyOnce([
    ...parentsOfStanding(world, moving.train, moving.cab),
    ...legReasons(world, moving),
    ...wayReasons(world, moving.train, head, spotsAhead(moving)),
    ...tagReasons(world, moving.train, cabs),
    ...liveTrains(world, moving.train, moving.together, cabs),
    ...tooLong(world, moving),
    ...loads(world, moving.train, moving.together, cabs, selectorsAlong(world, moving)),
  ]);
}

/** All reasons against a move; the look ahead is only taken when nothing else holds. */
export function allMoveReasons(world: World, moving: MoveCase): readonly Refusal[] {
  const reasons = moveReasons(world, moving);
  return reasons.length > 0 ? reasons : gridlockAhead(world, moving);
}
