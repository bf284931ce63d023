/** Orders about people and trains before they move: cabs, placing, guests' trains, lifting off, changing the cab. */
import type { BlockId, TrainId } from '../../ids.ts';
import { isStop } from '../../railroad/travel.ts';
import type { Refusal } from '../../refusal.ts';
import { authoritiesInForce, authorityOf, legsAhead } from '../facts/authorities.ts';
import { isWiredFor, straightThrottle } from '../facts/feed.ts';
import { heldParents } from '../facts/parents.ts';
import { blocksUnder, cutsIn, spotsUnder, standingAt, trainsIn } from '../facts/standing.ts';
import { unplacedTrain } from '../initial.ts';
import type { InputOf } from '../input.ts';
import { layBackAsFar, layBackWhole, setAuthorityState, trainNow } from '../reports/moving.ts';
import { wrongFeed } from '../reports/train-reports.ts';
import { called, refusal } from '../rules/sentences.ts';
import { done, type Ruling } from '../ruling.ts';
import { changeCabThrows } from '../throws.ts';
import { type World, withRecord, withState } from '../world.ts';

/** A refusal that says what is not ready; nothing else is checked. */
export function notNow(world: World, ...about: string[]): Ruling {
  return { kind: 'refused', reasons: [refusal(world, 'not-now', about)], world };
}

/** That a train is not ready, where the order knows better than the train's state what is against it: "No. 7" and the rest of a sentence. */
export const trainNotReady = (world: World, train: TrainId, why: string): Refusal => ({
  code: 'not-now',
  about: [train],
  says: `${called(world, train)} ${why}.`,
});

/** The same as the answer to an order: nothing else is checked. */
export const trainNotNow = (world: World, train: TrainId, why: string): Ruling => ({
  kind: 'refused',
  reasons: [trainNotReady(world, train, why)],
  world,
});

export function assignCab(world: World, { cab, person }: InputOf<'assign-cab'>): Ruling {
  return done(withRecord(world, 'cabs', cab, { person }));
}

export function addTrain(world: World, { train, name, length, amps }: InputOf<'add-train'>): Ruling {
  if (world.state.trains[train] !== undefined) return notNow(world, train);
  return done(withRecord(world, 'trains', train, unplacedTrain({ name, length, amps }, true)));
}

/** Reasons of the feed for a train that stands: the dial has no position, or the block is wired straight to another throttle, whatever the phase. */
function standingFeed(
  world: World,
  block: BlockId,
  cab: Parameters<typeof isWiredFor>[2],
): readonly Refusal[] {
  if (isWiredFor(world.railroad, block, cab)) return [];
  const straight = straightThrottle(world.railroad, block);
  return [
    straight === null
      ? refusal(world, 'cab-not-wired', [block, cab])
      : refusal(world, 'hand-off-needed', [block, straight]),
  ];
}

function placingReasons(world: World, block: BlockId, input: InputOf<'place-train'>): readonly Refusal[] {
  const here = trainsIn(world, block);
  const occupants: readonly string[] = [...here, ...cutsIn(world, block)];
  const owners = authoritiesInForce(world.state).flatMap(({ authority }) => {
    if (here.includes(authority.train)) return [];
    const leg = legsAhead(authority).find((other) => other.block === block);
    const parent = heldParents(world, authority).find((other) => other.block === block);
    const limits = authority.kind === 'limits' && authority.blocks.includes(block);
    const cab = leg?.cab ?? parent?.cab ?? world.state.trains[authority.train]?.cab ?? null;
    return leg === undefined && parent === undefined && !limits ? [] : [{ train: authority.train, cab }];
  });
  return [
    ...occupants.map((other) => refusal(world, 'block-occupied', [block, other])),
    ...owners.map(({ train, cab }) =>
      refusal(world, 'block-owned', [block, train, ...(cab === null ? [] : [cab])]),
    ),
    ...(world.state.blocks[block]?.state === 'disputed' ? [refusal(world, 'block-disputed', [block])] : []),
    ...(input.cab === undefined ? [] : standingFeed(world, block, input.cab)),
  ];
}

/**
 * Places a train: head at `toward`, the rest behind it along the turnouts as they stand.
 *
 * @param forced carried out against reasons that an override may pass over
 */
export function placeTrain(world: World, input: InputOf<'place-train'>, forced = false): Ruling {
  const { train: id, edge, toward, cab } = input;
  const train = trainNow(world, id);
  if (train.placed) return trainNotNow(world, id, 'is on the track already: correct it with “at”');
  if (!isStop(world.railroad, toward))
    return trainNotNow(world, id, 'can only stand with its head at a gap or an end of track');
  const whole = layBackWhole(world, { edge, toward }, train.length);
  const trail = whole ?? layBackAsFar(world, { edge, toward }, train.length);
  const blocks = blocksUnder(world.railroad, spotsUnder(world.railroad, { trail, length: train.length }));
  const head = blocks[0];
  if (head === undefined) return notNow(world, id);
  const long = whole === undefined ? [refusal(world, 'train-too-long', [id, head])] : [];
  const reasons = [...long, ...blocks.flatMap((block) => placingReasons(world, block, input))];
  if (reasons.length > 0 && !forced) return { kind: 'refused', reasons, world };
  let next = withRecord(world, 'trains', id, {
    placed: true,
    cab: cab ?? null,
    ...standingAt(trail, blocks),
    coupledInto: null,
  });
  for (const block of blocks)
    if (world.state.blocks[block]?.state !== 'disputed')
      next = withRecord(next, 'blocks', block, { train: id, cab: cab ?? null });
  return done(next, { raised: blocks.flatMap((block) => wrongFeed(next, block, id)) });
}

export function takeOff(world: World, { train: id }: InputOf<'take-off'>): Ruling {
  if (!trainNow(world, id).placed) return notNow(world, id);
  const held = authorityOf(world.state, id);
  const annulled = held === null ? world : setAuthorityState(world, held.id, 'annul');
  const lifted = withRecord(annulled, 'trains', id, {
    placed: false,
    cab: null,
    blocks: [],
    trail: [],
    lost: false,
    picked: [],
    stopped: true,
    derailed: false,
    stalled: false,
    motionUnknown: false,
    together: [],
  });
  return done(
    withState(lifted, {
      asks: lifted.state.asks.filter((ask) => ask.train !== id),
      handOffs: lifted.state.handOffs.filter((handOff) => handOff.train !== id),
    }),
  );
}

/** Another throttle for a stopped train: all its knobs first off, then one by one to the new cab. */
export function changeCab(world: World, { train: id, cab }: InputOf<'change-cab'>): Ruling {
  const train = trainNow(world, id);
  if (!train.placed) return notNow(world, id);
  if (!train.stopped && !train.derailed)
    return trainNotNow(world, id, 'is on its way: say first that it has stopped');
  const held = authorityOf(world.state, id);
  if (held !== null) return notNow(world, held.id);
  if (world.state.cabs[cab]?.person == null) return notNow(world, cab);
  const reasons = train.blocks.flatMap((block) => standingFeed(world, block, cab));
  if (reasons.length > 0) return { kind: 'refused', reasons, world };
  let next = withRecord(world, 'trains', id, { cab });
  for (const block of train.blocks)
    if (world.state.blocks[block]?.state === 'occupied' && world.state.blocks[block]?.train === id)
      next = withRecord(next, 'blocks', block, { cab });
  return done(next, { throws: changeCabThrows(next, id, cab) });
}
