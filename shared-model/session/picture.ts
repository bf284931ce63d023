/** The picture of the blocks: after every input each block's state follows from trains, cuts, authorities and knobs, along the edges of its machine. */
import type { BlockId, ThrottleId, TrainId } from '../ids.ts';
import { authoritiesInForce, legsAhead } from './facts/authorities.ts';
import { feedNow } from './facts/feed.ts';
import { isLegLined } from './facts/lined.ts';
import { heldParents } from './facts/parents.ts';
import { cutsIn, trainsIn, trimmedTrail } from './facts/standing.ts';
import { blockAfter } from './machines.ts';
import { layBackAsFar } from './reports/moving.ts';
import type { BlockNow, TrainNow } from './state.ts';
import { entriesOf, unique, type World, withRecord, withState } from './world.ts';

const OPEN: BlockNow = { state: 'open', cab: null, train: null };

function occupied(world: World, block: BlockId, before: BlockNow): BlockNow | null {
  const trains = trainsIn(world, block);
  const owner = trains.find((train) => train === before.train) ?? trains[0];
  if (owner !== undefined) {
    const cab =
      owner === before.train && before.cab !== null ? before.cab : (world.state.trains[owner]?.cab ?? null);
    return { state: 'occupied', cab, train: owner };
  }
  const cut = cutsIn(world, block)[0];
  return cut === undefined ? null : { state: 'occupied', cab: null, train: cut };
}

const granted = (lined: boolean, cab: ThrottleId | null, train: TrainId): BlockNow => ({
  state: lined ? 'lined' : 'pledged',
  cab,
  train,
});

function pledged(world: World, block: BlockId): BlockNow | null {
  const inForce = authoritiesInForce(world.state);
  for (const { authority } of inForce) {
    const leg = legsAhead(authority).find((other) => other.block === block);
    if (leg !== undefined) return granted(isLegLined(world, leg), leg.cab, authority.train);
    if (authority.kind === 'limits' && authority.blocks.includes(block)) {
      const cab = world.state.trains[authority.train]?.cab ?? null;
      return granted(cab !== null && feedNow(world, block) === cab, cab, authority.train);
    }
  }
  for (const { authority } of inForce) {
    const parent = heldParents(world, authority).find((other) => other.block === block);
    if (parent !== undefined)
      return granted(feedNow(world, block) === parent.cab, parent.cab, authority.train);
  }
  return null;
}

/** Blocks of limits that are lined count as occupied once the limits are read back, and stay so until they end. */
function takenInLimits(world: World): World {
  let next = world;
  for (const { id, authority } of authoritiesInForce(world.state)) {
    const cab = world.state.trains[authority.train]?.cab;
    if (authority.kind !== 'limits' || authority.state === 'granted' || cab === null || cab === undefined)
      continue;
    const lined = authority.blocks.filter((block) => feedNow(world, block) === cab);
    const taken = unique([...authority.taken, ...lined]);
    if (taken.length !== authority.taken.length) next = withRecord(next, 'authorities', id, { taken });
  }
  return next;
}

/** A trail that holds the train: one that has grown lies back along the turnouts as they stand. */
function longEnough(world: World, train: TrainNow): TrainNow['trail'] {
  const last = train.trail.at(-1);
  if (last === undefined || train.lost) return train.trail;
  const lengthOf = (spots: TrainNow['trail']): number =>
    spots.reduce((sum, { edge }) => sum + (world.railroad.edges.get(edge)?.length ?? 0), 0);
  const held = lengthOf(train.trail);
  if (held >= train.length) return train.trail;
  const lastLength = lengthOf([last]);
  const behind = layBackAsFar(world, last, train.length - held + lastLength).slice(1);
  return [...train.trail, ...behind.filter(({ edge }) => !train.trail.some((spot) => spot.edge === edge))];
}

function trimmed(world: World): World {
  let next = world;
  for (const [id, train] of entriesOf(world.state.trains)) {
    const trail = trimmedTrail(world.railroad, { ...train, trail: longEnough(world, train) });
    if (trail.length !== train.trail.length) next = withRecord(next, 'trains', id, { trail });
  }
  return next;
}

/** The world with every block's state drawn again. A disputed block stays so until it is settled. */
export function drawPicture(before: World): World {
  const world = trimmed(takenInLimits(before));
  const blocks = entriesOf(world.state.blocks as Record<BlockId, BlockNow>).map(
    ([id, now]): [BlockId, BlockNow] => {
      if (now.state === 'disputed') return [id, now];
      const next = occupied(world, id, now) ?? pledged(world, id) ?? OPEN;
      const same = next.state === now.state && next.cab === now.cab && next.train === now.train;
      return [id, same ? now : { ...next, state: blockAfter(now.state, next.state) }];
    },
  );
  return withState(world, { blocks: Object.fromEntries(blocks) });
}
