/** A hand-off: from a block on, the train is another cab's, agreed by both. */
import type { BlockId, NodeId } from '../../ids.ts';
import { onward } from '../../railroad/travel.ts';
import type { Refusal } from '../../refusal.ts';
import { authorityOf, legsAhead, spotsToRun } from '../facts/authorities.ts';
import { rootSelector } from '../facts/feed.ts';
import { phaseFact, supplyOf } from '../facts/phase.ts';
import type { InputOf } from '../input.ts';
import { trainNow } from '../reports/moving.ts';
import { blockReasons, inTableOrder } from '../rules/block-reasons.ts';
import type { MoveCase } from '../rules/move-case.ts';
import { legReasons, onlyOnce } from '../rules/move-reasons.ts';
import { refusal } from '../rules/sentences.ts';
import { liveTrains, loads, tagReasons, wayReasons } from '../rules/way-reasons.ts';
import { done, type Ruling } from '../ruling.ts';
import type { AuthorityNow, TrainNow } from '../state.ts';
import { unique, type World, withRecord, withState } from '../world.ts';
import { notNow } from './train-orders.ts';

type Input = InputOf<'hand-off'>;

function phaseReason(
  world: World,
  from: TrainNow['cab'],
  to: Input['toCab'],
  place: string,
): readonly Refusal[] {
  if (from === null) return [];
  const fact = phaseFact(world, from, to);
  return fact === 'in-phase'
    ? []
    : [refusal(world, fact, [place, supplyOf(world, from), supplyOf(world, to)])];
}

/** Legs from an index on, changed to the new cab. */
function recabbed(authority: AuthorityNow, from: number, cab: Input['toCab']): AuthorityNow['legs'] {
  return authority.legs.map((leg, index) => (index >= from ? { ...leg, cab } : leg));
}

/** The selectors at the roots of these blocks, each once. */
const selectorsOf = (world: World, blocks: readonly BlockId[]) =>
  unique(blocks.map((block) => rootSelector(world.railroad, block)).filter((id) => id !== null));

/** What lies ahead from a leg on, checked for the new cab as a move is; all codes but length and gridlock. */
function aheadReasons(
  world: World,
  authority: AuthorityNow,
  from: number,
  cab: Input['toCab'],
  under: readonly BlockId[],
): readonly Refusal[] {
  const train = trainNow(world, authority.train);
  const legs = recabbed(authority, from, cab).slice(authority.at + 1);
  const moving: MoveCase = {
    train: authority.train,
    cab: from <= authority.at ? cab : (authority.legs[authority.at]?.cab ?? cab),
    granted: spotsToRun(world.state, authority),
    here: null,
    legs,
    held: legs.length,
    joining: undefined,
    together: train.together,
    overhang: true,
  };
  const first = Math.max(0, from - authority.at - 1);
  const spots = legs.slice(first).flatMap((leg) => leg.spots);
  const before = legs[first - 1]?.spots.at(-1) ?? authority.legs[authority.at]?.spots.at(-1);
  const selectors = selectorsOf(world, [...under, ...legs.slice(first).map((leg) => leg.block)]);
  return onlyOnce([
    ...legReasons(world, moving, first),
    ...wayReasons(world, authority.train, before, spots),
    ...tagReasons(world, authority.train, [cab]),
    ...liveTrains(world, authority.train, train.together, [cab]),
    ...loads(world, authority.train, train.together, [cab], selectors),
  ]);
}

/** What was agreed for blocks that lie behind the new place of agreement counts no longer. */
function withoutHandOffs(world: World, id: Input['train'], blocks: readonly BlockId[]): World {
  const handOffs = world.state.handOffs.filter(({ train, block }) => train !== id || !blocks.includes(block));
  return withState(world, { handOffs });
}

function standing(world: World, { train: id, block, toCab }: Input, train: TrainNow): Ruling {
  const held = authorityOf(world.state, id);
  const here = train.blocks.flatMap((other) => {
    const phase = other === block ? phaseReason(world, train.cab, toCab, block) : [];
    const wish = {
      block: other,
      train: id,
      cab: toCab,
      cabBefore: toCab,
      gap: null,
      joining: undefined,
      ownTail: false,
    };
    return inTableOrder([...blockReasons(world, wish), ...phase]);
  });
  const rest = [
    ...tagReasons(world, id, [toCab]),
    ...liveTrains(world, id, train.together, [toCab]),
    ...loads(world, id, train.together, [toCab], selectorsOf(world, train.blocks)),
  ];
  const ahead =
    held === null ? rest : aheadReasons(world, held.authority, held.authority.at, toCab, train.blocks);
  const reasons = onlyOnce([...here, ...ahead]);
  if (reasons.length > 0) return { kind: 'refused', reasons, world };
  let next = withRecord(world, 'trains', id, { cab: toCab });
  for (const other of train.blocks) {
    const now = world.state.blocks[other];
    if (now?.train === id && now.state === 'occupied')
      next = withRecord(next, 'blocks', other, { cab: toCab });
  }
  if (held !== null)
    next = withRecord(next, 'authorities', held.id, {
      legs: recabbed(held.authority, held.authority.at, toCab),
    });
  return done(
    withoutHandOffs(next, id, held === null ? [] : legsAhead(held.authority).map((leg) => leg.block)),
  );
}

/** The gap ahead of the head, if it leads into the block; else the block itself. */
function placeOf(world: World, train: TrainNow, block: Input['block']): NodeId | Input['block'] {
  const head = train.trail[0];
  if (head === undefined || world.railroad.nodes.get(head.toward)?.kind !== 'gap') return block;
  const leads = onward(world.railroad, head).some(
    (next) => world.railroad.blockOfEdge.get(next.edge) === block,
  );
  return leads ? head.toward : block;
}

export function handOff(world: World, input: Input): Ruling {
  const { train: id, block, toCab } = input;
  const train = trainNow(world, id);
  if (!train.placed || train.cab === null) return notNow(world, id);
  const held = authorityOf(world.state, id);
  if (held?.authority.kind === 'limits') return notNow(world, held.id);
  if (world.state.cabs[toCab]?.person == null) return notNow(world, toCab);
  if (train.blocks.includes(block)) return standing(world, input, train);
  const index =
    held?.authority.legs.findIndex((leg, at) => at > (held?.authority.at ?? 0) && leg.block === block) ?? -1;
  const agreedFrom = (changed: World, replaced: readonly BlockId[]): World => {
    const kept = withoutHandOffs(changed, id, replaced);
    return withState(kept, { handOffs: [...kept.state.handOffs, { train: id, block, cab: toCab }] });
  };
  if (held === null || index < 0) {
    const from = held?.authority.legs.at(-1)?.cab ?? train.cab;
    const reasons = phaseReason(world, from, toCab, placeOf(world, train, block));
    return reasons.length > 0 ? { kind: 'refused', reasons, world } : done(agreedFrom(world, [block]));
  }
  const reasons = aheadReasons(world, held.authority, index, toCab, []);
  if (reasons.length > 0) return { kind: 'refused', reasons, world };
  const legs = recabbed(held.authority, index, toCab);
  const next = withRecord(world, 'authorities', held.id, { legs });
  return done(
    agreedFrom(
      next,
      legs.slice(index).map((leg) => leg.block),
    ),
  );
}
