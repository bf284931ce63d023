/** Settling a disputed block: what is true is open, or occupied by a named train. */
import type { BlockId, TrainId } from '../../ids.ts';
import { authoritiesInForce, authorityOf, legsAhead } from '../facts/authorities.ts';
import type { InputOf } from '../input.ts';
import { moveOntoLeg, setAuthorityState, trainNow } from '../reports/moving.ts';
import { done, type Ruling } from '../ruling.ts';
import type { CutNow, TrainNow } from '../state.ts';
import { entriesOf, type World, withRecord } from '../world.ts';
import { notNow } from './train-orders.ts';

/** A train taken off a block: its head goes back to the stretch before, and the block is ahead on its authority again. */
function offBlock(world: World, id: TrainId, train: TrainNow, block: BlockId): World {
  const { railroad } = world;
  const inBlock = (index: number): boolean => {
    const spot = train.trail[index];
    return spot !== undefined && railroad.blockOfEdge.get(spot.edge) === block;
  };
  const blocks = train.blocks.filter((other) => other !== block);
  const wasHead = train.blocks[0] === block || (!train.lost && inBlock(0));
  const firstBehind = train.trail.findIndex((_, index) => !inBlock(index));
  const back = wasHead && firstBehind >= 0 ? train.trail.slice(firstBehind) : wasHead ? [] : train.trail;
  const trail = blocks.length === 0 ? [] : back;
  const picked = train.picked.filter((other) => other !== block);
  const lost = blocks.length > 0 && (trail.length === 0 || (!wasHead && train.lost));
  const next = withRecord(world, 'trains', id, { blocks, trail, picked, lost });
  const held = authorityOf(world.state, id);
  if (held === null || held.authority.at === 0 || held.authority.legs[held.authority.at]?.block !== block)
    return next;
  return withRecord(next, 'authorities', held.id, { at: held.authority.at - 1 });
}

/** Every other train off a block; where it is open, cuts of cars too. */
function clearOut(world: World, block: BlockId, keep: TrainId | undefined): World {
  let next = world;
  for (const [id, train] of entriesOf(world.state.trains as Record<TrainId, TrainNow>))
    if (id !== keep && train.blocks.includes(block)) next = offBlock(next, id, train, block);
  if (keep !== undefined) return next;
  for (const [id, cut] of entriesOf(world.state.cuts as Record<string, CutNow>))
    if (cut.blocks.includes(block))
      next = withRecord(next, 'cuts', id, { blocks: cut.blocks.filter((other) => other !== block) });
  return next;
}

/** No longer disputed; whose it is follows from trains and authorities when the picture is drawn. */
const undisputed = (world: World, block: BlockId): World =>
  withRecord(world, 'blocks', block, { state: 'open', cab: null, train: null });

/** The world with a block settled as open. */
export function settledOpen(world: World, block: BlockId): World {
  return undisputed(clearOut(world, block, undefined), block);
}

function settledFor(world: World, block: BlockId, id: TrainId): World {
  let next = clearOut(world, block, id);
  for (const { id: other, authority } of authoritiesInForce(next.state)) {
    const ahead =
      legsAhead(authority).some((leg) => leg.block === block) ||
      (authority.kind === 'limits' && authority.blocks.includes(block));
    if (authority.train !== id && ahead) next = setAuthorityState(next, other, 'annul');
  }
  const train = trainNow(next, id);
  const held = authorityOf(next.state, id);
  const isNext = held?.authority.legs[held.authority.at + 1]?.block === block;
  if (!train.blocks.includes(block))
    next =
      held !== null && isNext
        ? moveOntoLeg(next, id, held, held.authority.at + 1)
        : withRecord(next, 'trains', id, { blocks: [...train.blocks, block] });
  const cab = trainNow(next, id).cab;
  return withRecord(undisputed(next, block), 'blocks', block, { train: id, cab });
}

export function settle(world: World, { block, state, train }: InputOf<'settle'>): Ruling {
  if (world.state.blocks[block]?.state !== 'disputed') return notNow(world, block);
  if (state === 'open') return done(settledOpen(world, block));
  if (train === undefined) return notNow(world, block);
  if (!trainNow(world, train).placed) return notNow(world, train);
  return done(settledFor(world, block, train));
}
