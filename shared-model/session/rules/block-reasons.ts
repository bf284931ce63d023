/** Why a block may not be granted to a train: the reasons about one block, in the order of the table. */
import type { BlockId, NodeId, ThrottleId, TrainId } from '../../ids.ts';
import { REFUSAL_CODES, type Refusal } from '../../refusal.ts';
import { authoritiesInForce, legsAhead } from '../facts/authorities.ts';
import { isWiredFor, liveSectionsBehind, ownToggle, parentsOf, straightThrottle } from '../facts/feed.ts';
import { heldParents } from '../facts/parents.ts';
import { phaseFact, supplyOf } from '../facts/phase.ts';
import { cutsIn, trainsIn } from '../facts/standing.ts';
import type { World } from '../world.ts';
import { refusal } from './sentences.ts';

/** One block to be granted: to whom, on which cab, by which gap, and which cab is left at that gap. */
export interface BlockWish {
  readonly block: BlockId;
  readonly train: TrainId;
  readonly cab: ThrottleId;
  readonly cabBefore: ThrottleId;
  readonly gap: NodeId | null;
  /** A train or cut that may stand in it, because the move joins it. */
  readonly joining: string | undefined;
  /** The train's own tail will still be in it when its head gets there. */
  readonly ownTail: boolean;
}

export const isTagged = ({ state }: World, thing: string): boolean =>
  state.tags.some((tag) => tag.thing === thing);

/** Tags on a block, on its own selector unless that stands at the cab, and on its own toggle unless that is on. */
function tags(world: World, block: BlockId, cab: ThrottleId): readonly Refusal[] {
  const source = world.railroad.blocks.get(block)?.source;
  const things: string[] = [block];
  if (
    source !== undefined &&
    'selector' in source &&
    world.state.selectors[source.selector]?.position !== cab
  )
    things.push(source.selector);
  if (source !== undefined && 'toggle' in source && world.state.toggles[source.toggle]?.on !== true)
    things.push(source.toggle);
  return things
    .filter((thing) => isTagged(world, thing))
    .map((thing) => refusal(world, 'out-of-service', [thing]));
}

/** Trains (other than this one) that have a block pledged or lined by an authority in force, with its cab. */
function pledgedTo(
  world: World,
  block: BlockId,
  train: TrainId,
): readonly { readonly train: TrainId; readonly cab: ThrottleId | null }[] {
  return authoritiesInForce(world.state)
    .filter(({ authority }) => authority.train !== train)
    .flatMap(({ authority }) => {
      const cabOfTrain = world.state.trains[authority.train]?.cab ?? null;
      const leg = legsAhead(authority).find((other) => other.block === block);
      if (leg !== undefined) return [{ train: authority.train, cab: leg.cab }];
      if (authority.kind === 'limits' && authority.blocks.includes(block) && !authority.taken.includes(block))
        return [{ train: authority.train, cab: cabOfTrain }];
      const parent = heldParents(world, authority).find((held) => held.block === block);
      return parent === undefined ? [] : [{ train: authority.train, cab: parent.cab }];
    });
}

function ownership(
  world: World,
  wish: Pick<BlockWish, 'block' | 'train' | 'joining' | 'ownTail'>,
): readonly Refusal[] {
  const { block, train } = wish;
  const here = trainsIn(world, block);
  const occupants: readonly string[] = [...here.filter((other) => other !== train), ...cutsIn(world, block)];
  const occupied = occupants
    .filter((other) => other !== wish.joining)
    .map((other) => refusal(world, 'block-occupied', [block, other]));
  const own = wish.ownTail
    ? [refusal(world, 'block-occupied', [block, train], 'Its own tail will still be there.')]
    : [];
  const owned = pledgedTo(world, block, train)
    .filter((owner) => !here.includes(owner.train))
    .map((owner) =>
      refusal(world, 'block-owned', [block, owner.train, ...(owner.cab === null ? [] : [owner.cab])]),
    );
  const disputed =
    world.state.blocks[block]?.state === 'disputed' ? [refusal(world, 'block-disputed', [block])] : [];
  return [...occupied, ...own, ...owned, ...disputed];
}

/** Reasons of the feed: the dial has no such position, or the wire goes straight to another throttle. */
export function feedReasons(
  world: World,
  block: BlockId,
  cab: ThrottleId,
  gap: NodeId | null,
): readonly Refusal[] {
  const straight = straightThrottle(world.railroad, block);
  if (straight === null)
    return isWiredFor(world.railroad, block, cab) ? [] : [refusal(world, 'cab-not-wired', [block, cab])];
  if (straight === cab) return [];
  const fact = phaseFact(world, cab, straight);
  if (fact === 'in-phase') return [refusal(world, 'hand-off-needed', [block, straight])];
  return [refusal(world, fact, [gap ?? block, supplyOf(world, cab), supplyOf(world, straight)])];
}

/** The cab changes at the gap by a hand-off: the two supplies have to be in phase there. */
function changeOfCab(world: World, wish: BlockWish): readonly Refusal[] {
  if (wish.cab === wish.cabBefore || wish.gap === null) return [];
  const fact = phaseFact(world, wish.cabBefore, wish.cab);
  if (fact === 'in-phase') return [];
  return [refusal(world, fact, [wish.gap, supplyOf(world, wish.cabBefore), supplyOf(world, wish.cab)])];
}

/** Other trains parked behind the block in sections that are on: they would run with the new cab. */
function liveSections(world: World, block: BlockId, train: TrainId): readonly Refusal[] {
  const behind = liveSectionsBehind(world, block);
  return behind.flatMap((section) => {
    const toggle = ownToggle(world.railroad, section);
    return trainsIn(world, section)
      .filter((id) => id !== train)
      .map((id) => refusal(world, 'section-live', [toggle ?? section, id]));
  });
}

/** Reasons about a parent of a section: tags, trains and owners in it, disputes and sections that are on; they name the parent. */
export function parentReasons(
  world: World,
  parent: BlockId,
  train: TrainId,
  cab: ThrottleId,
): readonly Refusal[] {
  return [
    ...tags(world, parent, cab),
    ...ownership(world, { block: parent, train, joining: undefined, ownTail: false }),
    ...liveSections(world, parent, train),
  ];
}

const rank = (reason: Refusal): number => REFUSAL_CODES.indexOf(reason.code);

/** Reasons in the order of the table, those of one code as they came. */
export function inTableOrder(reasons: readonly Refusal[]): readonly Refusal[] {
  return [...reasons].sort((a, b) => rank(a) - rank(b));
}

/** Every reason about one block, its parents' listed with it, in the order of the table. */
export function blockReasons(world: World, wish: BlockWish): readonly Refusal[] {
  return inTableOrder([
    ...tags(world, wish.block, wish.cab),
    ...ownership(world, wish),
    ...feedReasons(world, wish.block, wish.cab, wish.gap),
    ...changeOfCab(world, wish),
    ...liveSections(world, wish.block, wish.train),
    ...parentsOf(world.railroad, wish.block).flatMap((parent) =>
      parentReasons(world, parent, wish.train, wish.cab),
    ),
  ]);
}
