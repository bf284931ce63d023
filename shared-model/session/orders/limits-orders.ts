/** Working limits: connected blocks given to one train to work in as it likes, until it reports where it stands. */
import type { AuthorityId, BlockId, NodeId } from '../../ids.ts';
import type { Refusal } from '../../refusal.ts';
import { authorityOf, limitsBlocks } from '../facts/authorities.ts';
import { rootSelector } from '../facts/feed.ts';
import { blockOfNode, crossingTakers, locksOn } from '../facts/locks.ts';
import { blocksUnder, gapsBetween, spotsUnder, standingAt } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { authorityAfter } from '../machines.ts';
import { drawPicture } from '../picture.ts';
import { layBackWhole, setAuthorityState, trainNow } from '../reports/moving.ts';
import { blockReasons } from '../rules/block-reasons.ts';
import { onlyOnce, parentsOfStanding } from '../rules/move-reasons.ts';
import { refusal } from '../rules/sentences.ts';
import { liveTrains, loads, tagReasons } from '../rules/way-reasons.ts';
import { done, type Ruling } from '../ruling.ts';
import type { AuthorityNow } from '../state.ts';
import { throwsNeeded } from '../throws.ts';
import { unique, type World, withRecord, withState } from '../world.ts';
import { usesCabs, withoutAsk } from './move-orders.ts';
import { notNow, trainNotReady } from './train-orders.ts';

type Grant = InputOf<'grant-limits'>;

/** Blocks of the set that do not hang together with the train's own over gaps within the set. */
function apart(world: World, own: readonly BlockId[], named: readonly BlockId[]): readonly BlockId[] {
  const set = unique([...named, ...own]);
  const reached = new Set(own.slice(0, 1));
  for (let grown = true; grown; ) {
    const more = set.filter(
      (block) =>
        !reached.has(block) &&
        [...reached].some((from) => gapsBetween(world.railroad, from, block).length > 0),
    );
    for (const block of more) reached.add(block);
    grown = more.length > 0;
  }
  return set.filter((block) => !reached.has(block));
}

/** The first gap in the file's order that joins a block with another of the set. */
function gapIntoSet(world: World, block: BlockId, set: readonly BlockId[]): NodeId | null {
  const gaps = set
    .filter((other) => other !== block)
    .flatMap((other) => gapsBetween(world.railroad, block, other));
  return world.railroad.document.nodes.find((node) => gaps.includes(node.id))?.id ?? null;
}

function nodeReasons(world: World, { train, blocks }: Grant): readonly Refusal[] {
  return world.railroad.document.nodes.flatMap((node): Refusal[] => {
    if (node.kind === 'crossing' && node.insulated) {
      const taken = node.ways.some((way, index) => {
        const block = world.railroad.blockOfEdge.get(way[0]);
        return (
          block !== undefined &&
          blocks.includes(block) &&
          crossingTakers(world, node, index, train).length > 0
        );
      });
      return taken ? [refusal(world, 'crossing-taken', [node.id])] : [];
    }
    const block = blockOfNode(world.railroad, node.id);
    const inside = block !== null && blocks.includes(block) && world.state.turnouts[node.id] !== undefined;
    const locked = inside && locksOn(world, node.id).some((lock) => lock.train !== train && !lock.under);
    return locked ? [refusal(world, 'turnout-locked', [node.id])] : [];
  });
}

/** Every reason against limits; null stands for a train or cab that is not ready. */
function limitsReasons(world: World, input: Grant): readonly Refusal[] {
  const { train: id, blocks: named } = input;
  const train = trainNow(world, id);
  const cab = train.cab;
  if (!train.placed || train.derailed || cab === null) return [refusal(world, 'not-now', [id])];
  if (authorityOf(world.state, id) !== null)
    return [trainNotReady(world, id, 'has an authority: let it be fulfilled first, or annul it')];
  if (world.state.cabs[cab]?.person == null) return [refusal(world, 'not-now', [cab])];
  const lost = apart(world, train.blocks, named);
  if (lost.length > 0) return lost.map((block) => refusal(world, 'no-route', [id, block]));
  const set = unique([...named, ...train.blocks]);
  const selectors = unique(
    named.map((block) => rootSelector(world.railroad, block)).filter((knob) => knob !== null),
  );
  return onlyOnce([
    ...parentsOfStanding(world, id, cab),
    ...unique(named).flatMap((block) =>
      blockReasons(world, {
        block,
        train: id,
        cab,
        cabBefore: cab,
        gap: gapIntoSet(world, block, set),
        joining: undefined,
        ownTail: false,
      }),
    ),
    ...nodeReasons(world, input),
    ...tagReasons(world, id, [cab]),
    ...liveTrains(world, id, [], [cab]),
    ...loads(world, id, [], [cab], selectors),
  ]);
}

export function grantLimits(world: World, input: Grant): Ruling {
  const reasons = limitsReasons(world, input);
  if (reasons.length > 0) return { kind: 'refused', reasons, world };
  const train = trainNow(world, input.train);
  const id = `a${world.state.granted + 1}` as AuthorityId;
  const authority: AuthorityNow = {
    train: input.train,
    kind: 'limits',
    state: world.state.alone ? authorityAfter('granted', 'acknowledge') : 'granted',
    blocks: unique(input.blocks),
    legs: [],
    at: 0,
    to: input.blocks.join(', '),
    grantedAt: world.state.at,
    taken: [],
  };
  let next = withRecord(withState(world, { granted: world.state.granted + 1 }), 'authorities', id, authority);
  if (train.cab !== null) next = usesCabs(next, [train.cab]);
  next = withoutAsk(next, input.train);
  return done(next, { authority: id, throws: throwsNeeded(drawPicture(next), authority) });
}

/** Limits end with where the train then stands; the other blocks are given back. */
export function releaseLimits(world: World, { train: id, edge, toward }: InputOf<'release-limits'>): Ruling {
  const held = authorityOf(world.state, id);
  if (held === null || held.authority.kind !== 'limits') return notNow(world, id);
  const train = trainNow(world, id);
  const trail = layBackWhole(world, { edge, toward }, train.length);
  const blocks = blocksUnder(
    world.railroad,
    spotsUnder(world.railroad, { trail: trail ?? [], length: train.length }),
  );
  const inside =
    blocks.length > 0 && blocks.every((block) => limitsBlocks(world.state, held.authority).includes(block));
  if (trail === undefined || !inside) return notNow(world, id);
  const next = withRecord(world, 'trains', id, {
    ...standingAt(trail, blocks),
  });
  return done(setAuthorityState(next, held.id, 'release'));
}
