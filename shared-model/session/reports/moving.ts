/** How a train's record changes as it moves: onto a leg of its authority, or over a gap without one. */
import type { AuthorityId, BlockId, NodeId, TrainId } from '../../ids.ts';
import { isStop, onward, onwardAsSet, otherEnd, type Spot, turned } from '../../railroad/travel.ts';
import { layBack } from '../../railroad/under-train.ts';
import { authoritiesInForce, blocksIn, type InForce } from '../facts/authorities.ts';
import { blocksUnder, gapsBetween, spotsUnder } from '../facts/standing.ts';
import { authorityAfter } from '../machines.ts';
import type { AuthorityNow, Trail, TrainNow } from '../state.ts';
import { type World, withRecord, withState } from '../world.ts';

/** A train's record; asking for one that is not there is a bug, since names are checked at the border. */
export function trainNow({ state }: World, id: TrainId): TrainNow {
  const train = state.trains[id];
  if (train === undefined) throw new Error(`no train ${id}`);
  return train;
}

const positionIn =
  ({ state }: World) =>
  (node: NodeId) =>
    state.turnouts[node]?.position ?? 'normal';

/** Longer than any railroad: back as far as the track leads. */
const WHOLE = Number.POSITIVE_INFINITY;

/** Lays a train back along the turnouts as they stand; as far as it goes where it does not fit. */
export function layBackAsFar(world: World, head: Spot, lengthMm: number): Trail {
  const whole = layBack(world.railroad, head, lengthMm, positionIn(world));
  if (whole !== undefined) return whole;
  const trail: Spot[] = [head];
  for (let last = head; ; ) {
    const behind = onwardAsSet(world.railroad, turned(world.railroad, last), positionIn(world));
    if (behind === undefined || !world.railroad.blockOfEdge.has(behind.edge)) return trail;
    last = turned(world.railroad, behind);
    if (trail.some((spot) => spot.edge === last.edge)) return trail;
    trail.push(last);
  }
}

/** Lays a train back along the turnouts as they stand; undefined where it does not fit. */
export function layBackWhole(world: World, head: Spot, lengthMm: number): Trail | undefined {
  return layBack(world.railroad, head, lengthMm, positionIn(world));
}

function movesSelfLined(world: World, turnouts: AuthorityNow['legs'][number]['turnouts']): World {
  let next = world;
  for (const { id, position, selfLined } of turnouts)
    if (selfLined && world.state.turnouts[id]?.position !== position)
      next = withRecord(next, 'turnouts', id, { position });
  return next;
}

/** The head goes on to a leg of the train's authority: it is then at the far end of that block on the route. */
export function moveOntoLeg(world: World, id: TrainId, held: InForce, index: number): World {
  const train = trainNow(world, id);
  const leg = held.authority.legs[index];
  if (leg === undefined) throw new Error(`no leg ${index} on ${held.id}`);
  const head = train.trail[0];
  const here = held.authority.legs[held.authority.at]?.spots ?? [];
  const behind = here.findLastIndex((spot) => spot.edge === head?.edge && spot.toward === head.toward);
  const entered = held.authority.legs.slice(held.authority.at + 1, index + 1);
  const ahead = [...here.slice(behind + 1), ...entered.flatMap((other) => other.spots)];
  const [first] = here;
  // It was somewhere else: it comes the way that was granted.
  const back = behind >= 0 || first === undefined ? train.trail : layBackAsFar(world, first, WHOLE).slice(1);
  const trail = [...ahead.reverse(), ...back];
  const passed = entered.map((other) => other.block);
  const blocks = [...new Set([...[...passed].reverse(), ...train.blocks])];
  const running = leg.readBack && held.authority.state === 'acknowledged';
  const state = running ? authorityAfter(held.authority.state, 'enter') : held.authority.state;
  let next = withRecord(world, 'authorities', held.id, { at: index, state });
  next = withRecord(next, 'trains', id, {
    trail,
    lost: false,
    blocks,
    picked: train.picked.filter((block) => !passed.includes(block)),
    stopped: false,
    stalled: false,
    motionUnknown: false,
    cab: leg.cab,
  });
  for (const other of entered) {
    const now = next.state.blocks[other.block];
    if (other.readBack && now?.state !== 'disputed')
      next = withRecord(next, 'blocks', other.block, { train: id, cab: other.cab });
    next = movesSelfLined(next, other.turnouts);
  }
  const handOffs = next.state.handOffs.filter(
    (handOff) => handOff.train !== id || !passed.includes(handOff.block),
  );
  return handOffs.length === next.state.handOffs.length ? next : withState(next, { handOffs });
}

/** The gap by which a train without authority comes into a block: the one it stands at, else the first in the file's order, the head's blocks first. */
function gapInto(world: World, id: TrainId, block: BlockId): NodeId | undefined {
  const { railroad } = world;
  const train = trainNow(world, id);
  const toward = train.lost ? undefined : train.trail[0]?.toward;
  const inFront = blocksIn(world.state, id).flatMap((from) => gapsBetween(railroad, from, block));
  return toward !== undefined && inFront.includes(toward) ? toward : inFront[0];
}

interface Through {
  readonly spots: readonly Spot[];
  /** A turnout is set against it, or no gap leads there: nobody knows where its head is. */
  readonly lost: boolean;
  /** The self-lining turnouts that it trailed on the way. */
  readonly trailed: AuthorityNow['legs'][number]['turnouts'];
}

const NOWHERE: Through = { spots: [], lost: true, trailed: [] };

/** The spots from a gap on through a block along the set turnouts, self-lining ones as the train moves them, up to the next gap or end. */
function throughBlock(world: World, gap: NodeId, block: BlockId): Through {
  const { railroad } = world;
  const edge = (railroad.edgesAt.get(gap) ?? []).find((at) => railroad.blockOfEdge.get(at) === block);
  if (edge === undefined) return NOWHERE;
  const spots: Spot[] = [{ edge, toward: otherEnd(railroad, edge, gap) }];
  const trailed: Through['trailed'][number][] = [];
  const stands = (node: NodeId) =>
    trailed.findLast(({ id }) => id === node)?.position ?? positionIn(world)(node);
  for (let last = spots[0]; last !== undefined && !isStop(railroad, last.toward); last = spots.at(-1)) {
    const moved = onward(railroad, last).find(({ selfLined }) => selfLined === true);
    if (moved?.setting !== undefined)
      trailed.push({ id: moved.through, position: moved.setting, selfLined: true });
    const next = onwardAsSet(railroad, last, stands);
    if (next === undefined || spots.some((spot) => spot.edge === next.edge && spot.toward === next.toward))
      return { spots, lost: true, trailed };
    spots.push({ edge: next.edge, toward: next.toward });
  }
  return { spots, lost: false, trailed };
}

/** The head goes over a gap without an authority. Its place is unknown when no gap joins, or a turnout is set against it. */
export function moveWithoutLeg(world: World, id: TrainId, block: BlockId): World {
  const { railroad } = world;
  const train = trainNow(world, id);
  const gap = gapInto(world, id, block);
  const through = gap === undefined ? NOWHERE : throughBlock(world, gap, block);
  const atGap = gap !== undefined && !train.lost && train.trail[0]?.toward === gap;
  const back = (railroad.edgesAt.get(gap ?? ('' as NodeId)) ?? []).find(
    (edge) => railroad.blockOfEdge.get(edge) !== block,
  );
  const behind: Trail =
    atGap || gap === undefined || back === undefined
      ? train.trail
      : layBackAsFar(world, { edge: back, toward: gap }, WHOLE);
  const trail = [...[...through.spots].reverse(), ...behind];
  const agreed = world.state.handOffs.find((handOff) => handOff.train === id && handOff.block === block);
  const handOffs = world.state.handOffs.filter((handOff) => handOff !== agreed);
  const lined = movesSelfLined(withState(world, { handOffs }), through.trailed);
  return withRecord(lined, 'trains', id, {
    placed: true,
    trail,
    lost: through.lost,
    blocks: [...new Set([block, ...train.blocks])],
    picked: train.picked.filter((other) => other !== block),
    stopped: false,
    stalled: false,
    motionUnknown: false,
    ...(agreed === undefined ? {} : { cab: agreed.cab }),
  });
}

/** Whether an authority's last block was reached and everything behind that the train does not still cover was reported clear. */
function isFulfilled(world: World, { authority }: InForce): boolean {
  if (
    authority.kind === 'limits' ||
    authority.state !== 'running' ||
    authority.at < authority.legs.length - 1
  )
    return false;
  const train = trainNow(world, authority.train);
  const covered = blocksUnder(world.railroad, spotsUnder(world.railroad, train));
  const last = authority.legs.at(-1)?.block;
  if (authority.legs.some((leg) => !leg.readBack)) return false;
  return train.blocks.every((block) => block === last || covered.includes(block));
}

/** Ends every authority that is fulfilled; asked after each input. */
export function endFulfilled(world: World): World {
  return authoritiesInForce(world.state)
    .filter((held) => isFulfilled(world, held))
    .reduce((next, { id }) => setAuthorityState(next, id, 'fulfil'), world);
}

/** Takes an authority along an edge of its machine. */
export function setAuthorityState(world: World, id: AuthorityId, event: string): World {
  const authority = world.state.authorities[id];
  if (authority === undefined) throw new Error(`no authority ${id}`);
  return withRecord(world, 'authorities', id, { state: authorityAfter(authority.state, event) });
}
