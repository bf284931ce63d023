/** Reports about trains: entered, cleared, stopped, at, derailed, rerailed, stalled. Never refused; what contradicts the rules raises alarms. */
import type { BlockId, TrainId } from '../../ids.ts';
import { authorityOf, blocksIn, type InForce, isInLimits, limitsBlocks } from '../facts/authorities.ts';
import { feedNow } from '../facts/feed.ts';
import { wrongTurnouts } from '../facts/lined.ts';
import { blocksUnder, cabUnder, gapsBetween, spotsUnder, standingAt, trainsIn } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { type Done, done, type Raised } from '../ruling.ts';
import type { TrainNow } from '../state.ts';
import { type World, withRecord, withState } from '../world.ts';
import { layBackAsFar, moveOntoLeg, moveWithoutLeg, setAuthorityState, trainNow } from './moving.ts';

/** A throttle that feeds a block though it is not this train's cab there. */
export function wrongFeed(world: World, block: BlockId, train: TrainId): readonly Raised[] {
  const cab = cabUnder(world, train, block);
  const feed = feedNow(world, block);
  if (feed === null || cab === null || feed === cab) return [];
  return [{ code: 'wrong-throttle', about: [block, feed], train }];
}

function isAdjacent(world: World, id: TrainId, block: BlockId): boolean {
  return blocksIn(world.state, id).some((from) => gapsBetween(world.railroad, from, block).length > 0);
}

/** Entered on its own, read-back authority: up to the leg, those between are entered too, and each is asked whether it was lined. */
function enteredOwn(world: World, id: TrainId, held: InForce, index: number): Done {
  const entered = held.authority.legs.slice(held.authority.at + 1, index + 1);
  const raised: Raised[] = [];
  const moved = moveOntoLeg(world, id, held, index);
  for (const leg of entered) {
    const feed = feedNow(world, leg.block);
    if (feed !== leg.cab || wrongTurnouts(world, leg).length > 0)
      raised.push({ code: 'entered-unlined', about: [id, leg.block], train: id });
    if (feed !== null && feed !== leg.cab)
      raised.push({ code: 'wrong-throttle', about: [leg.block, feed], train: id });
  }
  return done(moved, { raised });
}

/** The leg that a report of entering a block means: the first ahead that is read back as far as there; -1 for none. */
function ownLegAhead({ authority }: InForce, block: BlockId): number {
  return authority.legs.findIndex(
    (leg, index) =>
      index > authority.at &&
      leg.block === block &&
      authority.legs.slice(authority.at + 1, index + 1).every((other) => other.readBack),
  );
}

export function trainEntered(world: World, { train: id, block }: InputOf<'train-entered'>): Done {
  const train = trainNow(world, id);
  const held = authorityOf(world.state, id);
  if (held !== null && limitsBlocks(world.state, held.authority).includes(block)) return done(world);
  const next = held?.authority.legs[held.authority.at + 1];
  if (train.blocks.includes(block) && next?.block !== block) return done(world);
  const own = held === null || held.authority.kind === 'limits' ? -1 : ownLegAhead(held, block);
  if (held !== null && own >= 0) return enteredOwn(world, id, held, own);
  const raised: Raised[] = [{ code: 'entered-unauthorised', about: [id, block], train: id }];
  if (!isAdjacent(world, id, block)) raised.push({ code: 'not-adjacent', about: [id, block], train: id });
  const moved =
    held !== null && next?.block === block
      ? moveOntoLeg(world, id, held, held.authority.at + 1)
      : moveWithoutLeg(world, id, block);
  return done(moved, { raised, disputed: [block] });
}

/** Takes a block off a train, as far as it is given back. */
export function giveBack(world: World, id: TrainId, block: BlockId): World {
  const train = trainNow(world, id);
  return withRecord(world, 'trains', id, {
    blocks: train.blocks.filter((other) => other !== block),
    picked: train.picked.filter((other) => other !== block),
  });
}

export function trainCleared(world: World, { train: id, block }: InputOf<'train-cleared'>): Done {
  const train = trainNow(world, id);
  if (isInLimits(world.state, id, block) || !train.blocks.includes(block)) return done(world);
  if (train.picked.includes(block)) return done(giveBack(world, id, block));
  if (train.blocks[0] === block)
    return done(world, { raised: [{ code: 'not-adjacent', about: [id, block], train: id }] });
  const under = blocksUnder(world.railroad, spotsUnder(world.railroad, train));
  if (under.includes(block))
    return done(world, { raised: [{ code: 'still-under', about: [id, block], train: id }] });
  return done(giveBack(world, id, block));
}

export function trainStopped(world: World, { train: id }: InputOf<'train-stopped'>): Done {
  const train = trainNow(world, id);
  if (!train.placed) return done(world);
  const stopped = withRecord(world, 'trains', id, { stopped: true });
  const held = authorityOf(world.state, id);
  const only = held?.authority.legs.length === 1 ? held.authority.legs[0] : undefined;
  if (held === null || only === undefined || held.authority.state === 'granted') return done(stopped);
  const moved = moveOntoLeg(stopped, id, held, 0);
  return done(withRecord(moved, 'trains', id, { stopped: true }));
}

/** The leg of its authority whose far end (or beginning) this place is: the next such from where it was, else any. */
function legEndingAt(
  { authority }: InForce,
  spot: { readonly edge: string; readonly toward: string },
): number {
  const ends = (index: number): boolean => {
    const spots = authority.legs[index]?.spots ?? [];
    // Where it began, it ends the block in which it was granted, also when more of that block was still to be run.
    const places = [spots.at(-1), index === 0 ? spots[0] : undefined];
    return places.some((place) => place?.edge === spot.edge && place.toward === spot.toward);
  };
  const indexes = authority.legs.map((_, index) => index).filter(ends);
  return indexes.find((index) => index >= authority.at) ?? indexes.at(-1) ?? -1;
}

function keepOrAnnul(
  world: World,
  id: TrainId,
  spot: { readonly edge: string; readonly toward: string },
  inLimits: boolean,
): World {
  const held = authorityOf(world.state, id);
  if (held === null) return world;
  if (held.authority.kind === 'limits') return inLimits ? world : setAuthorityState(world, held.id, 'annul');
  const at = legEndingAt(held, spot);
  if (at < 0) return setAuthorityState(world, held.id, 'annul');
  const moved = withRecord(world, 'authorities', held.id, { at });
  return at > 0 && held.authority.state === 'acknowledged'
    ? setAuthorityState(moved, held.id, 'enter')
    : moved;
}

/**
 * Whose the train is where it was corrected to, and the blocks that came to it: those of its authority are as granted; else it is the
 * other cab's from the block of an agreed hand-off on, which is then carried out (not inside limits, which are one cab's).
 */
function correctCabs(world: World, id: TrainId, before: TrainNow, own: readonly BlockId[]): World {
  const { blocks } = trainNow(world, id);
  const held = authorityOf(world.state, id)?.authority;
  const legs = held?.kind === 'move' ? held.legs.slice(1, held.at + 1) : [];
  const agreed = (block: BlockId) =>
    world.state.handOffs.find((handOff) => handOff.train === id && handOff.block === block);
  const works = held?.kind === 'limits';
  const from = works ? -1 : blocks.findIndex((block) => agreed(block) !== undefined);
  const cabOf = (block: BlockId): TrainNow['cab'] => {
    const leg = legs.findLast((other) => other.block === block);
    const handOff = blocks.indexOf(block) <= from ? agreed(blocks[from] as BlockId) : undefined;
    return leg?.cab ?? handOff?.cab ?? before.cab;
  };
  const [head] = blocks;
  let next = withRecord(world, 'trains', id, { cab: head === undefined ? before.cab : cabOf(head) });
  for (const block of own)
    if (!before.blocks.includes(block))
      next = withRecord(next, 'blocks', block, { train: id, cab: cabOf(block) });
  const handOffs = next.state.handOffs.filter(
    (handOff) => works || handOff.train !== id || !blocks.includes(handOff.block),
  );
  return withState(next, { handOffs });
}

export function trainAt(world: World, { train: id, edge, toward }: InputOf<'train-at'>): Done {
  const train = trainNow(world, id);
  const trail = layBackAsFar(world, { edge, toward }, train.length);
  const blocks = blocksUnder(world.railroad, spotsUnder(world.railroad, { trail, length: train.length }));
  const held = authorityOf(world.state, id)?.authority;
  const mine = (block: BlockId): boolean => {
    const now = world.state.blocks[block];
    if (train.blocks.includes(block)) return true;
    if (now?.state === 'disputed') return false;
    const others = trainsIn(world, block).filter((other) => other !== id);
    return others.length === 0 && (now?.state === 'open' || now?.train === id);
  };
  const foreign = blocks.filter((block) => !mine(block));
  let next = withRecord(world, 'trains', id, {
    placed: true,
    ...standingAt(trail, blocks),
  });
  const inLimits =
    held !== undefined && blocks.every((block) => limitsBlocks(world.state, held).includes(block));
  next = correctCabs(keepOrAnnul(next, id, { edge, toward }, inLimits), id, train, blocks.filter(mine));
  const raised: Raised[] = foreign.map((block) => ({
    code: 'entered-unauthorised',
    about: [id, block],
    train: id,
  }));
  // In a disputed block that it was in already a correction raises nothing new.
  const wrong = blocks
    .filter((block) => !foreign.includes(block) && world.state.blocks[block]?.state !== 'disputed')
    .flatMap((block) => wrongFeed(next, block, id));
  return done(next, { raised: [...raised, ...wrong], disputed: foreign });
}

export function stalled(world: World, { train }: InputOf<'stalled'>): Done {
  return done(withRecord(world, 'trains', train, { stalled: true, stopped: true }));
}

export function derailed(world: World, { train }: InputOf<'derailed'>): Done {
  return done(withRecord(world, 'trains', train, { derailed: true, stopped: true }), {
    raised: [{ code: 'off-the-rails', about: [train], train }],
    disputed: trainNow(world, train).blocks,
  });
}

export function rerailed(world: World, { train }: InputOf<'rerailed'>): Done {
  return done(withRecord(world, 'trains', train, { derailed: false }));
}
