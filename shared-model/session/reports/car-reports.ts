/** Cars set out, picked up, coupled, recounted. The first three are refused where they cannot be true. */
import type { BlockId, TrainId } from '../../ids.ts';
import { authorityOf, limitsBlocks } from '../facts/authorities.ts';
import { blocksUnder, gapsBetween, spotsUnder } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { refusal } from '../rules/sentences.ts';
import { done, type Ruling } from '../ruling.ts';
import { type World, withoutRecord, withRecord, withState } from '../world.ts';
import { layBackAsFar, setAuthorityState, trainNow } from './moving.ts';

const notNow = (world: World, thing: string): Ruling => ({
  kind: 'refused',
  reasons: [refusal(world, 'not-now', [thing])],
  world,
});

export function setOut(world: World, { train: id, cut, length, edge, toward }: InputOf<'set-out'>): Ruling {
  const train = trainNow(world, id);
  if (!train.placed || train.length < length) return notNow(world, id);
  if (world.state.cuts[cut] !== undefined) return notNow(world, cut);
  const trail = layBackAsFar(world, { edge, toward }, length);
  const blocks = blocksUnder(world.railroad, spotsUnder(world.railroad, { trail, length }));
  const shorter = withRecord(world, 'trains', id, { length: train.length - length });
  return done(withRecord(shorter, 'cuts', cut, { length, trail, blocks }));
}

/** In a block of the train, or in one that a gap joins with it. */
function isWithin(world: World, id: TrainId, blocks: readonly BlockId[]): boolean {
  const limits = authorityOf(world.state, id)?.authority;
  const own = [
    ...trainNow(world, id).blocks,
    ...(limits === undefined ? [] : limitsBlocks(world.state, limits)),
  ];
  return blocks.some((block) =>
    own.some((from) => from === block || gapsBetween(world.railroad, from, block).length > 0),
  );
}

/** The train with more blocks at its tail, of which a clear agrees whatever the length says. */
function withMore(
  world: World,
  id: TrainId,
  more: { readonly blocks: readonly BlockId[]; readonly length: number; readonly amps: number },
): World {
  const train = trainNow(world, id);
  const fresh = more.blocks.filter((block) => !train.blocks.includes(block));
  return withRecord(world, 'trains', id, {
    length: train.length + more.length,
    amps: train.amps + more.amps,
    blocks: [...train.blocks, ...fresh],
    picked: [...new Set([...train.picked, ...fresh])],
  });
}

export function pickUp(world: World, { train: id, cut: cutId }: InputOf<'pick-up'>): Ruling {
  const cut = world.state.cuts[cutId];
  if (!trainNow(world, id).placed) return notNow(world, id);
  if (cut === undefined || !isWithin(world, id, cut.blocks)) return notNow(world, cutId);
  return done(withMore(withoutRecord(world, 'cuts', cutId), id, { ...cut, amps: 0 }));
}

/** Two engines on one throttle: the other train is gone until it is made up and placed again. */
export function couple(world: World, { train: id, other: otherId }: InputOf<'couple'>): Ruling {
  const train = trainNow(world, id);
  const other = trainNow(world, otherId);
  if (!train.placed) return notNow(world, id);
  if (id === otherId || !other.placed || other.cab !== train.cab || !isWithin(world, id, other.blocks))
    return notNow(world, otherId);
  const held = authorityOf(world.state, otherId);
  let next = held === null ? world : setAuthorityState(world, held.id, 'annul');
  next = withRecord(next, 'trains', otherId, {
    placed: false,
    blocks: [],
    trail: [],
    lost: false,
    picked: [],
    stopped: true,
    coupledInto: id,
  });
  next = withState(next, { asks: next.state.asks.filter((ask) => ask.train !== otherId) });
  return done(withMore(next, id, other));
}

export function makeUp(world: World, { train, length, amps }: InputOf<'make-up'>): Ruling {
  return done(withRecord(world, 'trains', train, { length, amps }));
}
