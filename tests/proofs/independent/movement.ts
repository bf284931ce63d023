/** How trains come into blocks and leave them: the mechanics, without a word about alarms. */

import {
  type Authority,
  ahead,
  authorityOf,
  isIn,
  type PlacedTrain,
  type State,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import {
  gapsBetween,
  isStop,
  laidBack,
  onward,
  type Passage,
  passages,
  type Setting,
  type Spot,
  type Stretch,
  underOf,
} from './track.ts';
import { waysOf } from './views.ts';

function putInFront(state: State, train: PlacedTrain, block: string): void {
  train.cab = train.handOffs[block] ?? train.cab;
  delete train.handOffs[block];
  state.arrivals += 1;
  const others = train.blocks.filter((one) => one.block !== block);
  train.blocks = [{ block, cab: train.cab, since: state.arrivals, pickedUp: false }, ...others];
  train.stopped = false;
}

/** Longer than any railroad: back as far as track leads. */
const WHOLE = 1e9;

/**
 * Puts new pieces (in the order of travel) before a trail. Where they do not go on from its head, the train lies back from
 * the gap that they came over, along the turnouts as they stand.
 */
function lengthened(world: World, state: State, train: PlacedTrain, pieces: readonly Stretch[]): void {
  const newest = [...pieces].reverse();
  const by = pieces[0]?.by;
  const head = train.trail[0];
  const joins = !by || (head?.edge === by.from && head.toward === by.node);
  const behind = joins
    ? train.trail
    : laidBack(world.track, { edge: by.from, toward: by.node }, WHOLE, state.turnouts).trail;
  train.trail = [...newest, ...behind];
}

/** The train has come over these pieces (or stood where its authority began), and lies back from them along the turnouts as they stand. */
function comeBy(
  world: World,
  state: State,
  train: PlacedTrain,
  start: Spot,
  pieces: readonly Stretch[],
): void {
  const [first] = pieces;
  const from = first ?? { ...start, by: null };
  const { trail } = laidBack(world.track, from, WHOLE, state.turnouts);
  const back = first?.by ? [{ ...first }, ...trail.slice(1)] : trail;
  train.trail = [...pieces.slice(1).reverse(), ...back];
}

/** Forgets of a trail what lies neither under the train nor before the end of the last of its blocks. */
function prune(world: World, state: State, id: string): void {
  const train = sure(state.trains[id]);
  const last = train.trail.findLastIndex((piece) =>
    train.blocks.some((one) => one.block === world.track.blockOf[piece.edge]),
  );
  const lying = train.known ? underOf(world.track, train.trail, sure(state.rolling[id]).length).length : 0;
  train.trail = train.trail.slice(0, Math.max(last + 1, lying));
}

/** A train that has grown longer lies on back along the turnouts as they stand, and stays there. */
export function stretch(world: World, state: State, id: string): void {
  const train = sure(state.trains[id]);
  const last = train.trail.at(-1);
  if (!train.known || last === undefined) return;
  const { length } = sure(state.rolling[id]);
  const came = train.trail.reduce((sum, piece) => sum + sure(world.track.length[piece.edge]), 0);
  if (came >= length) return;
  const missing = length - came + sure(world.track.length[last.edge]);
  const { trail } = laidBack(world.track, last, missing, state.turnouts);
  const isNew = ({ edge }: Stretch): boolean => !train.trail.some((piece) => piece.edge === edge);
  train.trail = [...train.trail.slice(0, -1), sure(trail[0]), ...trail.slice(1).filter(isNew)];
}

function moveSelfLining(state: State, ways: readonly Passage[]): void {
  for (const way of ways) if (way.trails && way.setting) state.turnouts[way.node] = way.setting;
}

/** The train's head comes to the far end of a visit; the visits before it are entered on the way. */
export function enterVisits(world: World, state: State, authority: Authority, upTo: number): void {
  const train = sure(state.trains[authority.train]);
  for (let index = authority.pos + 1; index <= upTo; index += 1) {
    const visit = sure(authority.visits[index]);
    const steps = [...authority.lead, ...visit.steps];
    authority.led.push(...authority.lead);
    authority.lead = [];
    const from = sure(steps[0]).by;
    const [head] = train.trail;
    const onWay = head?.edge === from?.from && head?.toward === from?.node;
    const before = index === 0 ? authority.led : sure(authority.visits[index - 1]).steps;
    // It was somewhere else: it comes the way that was granted.
    if (!onWay) comeBy(world, state, train, authority.start, before);
    lengthened(world, state, train, steps);
    train.cab = visit.cab;
    putInFront(state, train, visit.block);
    moveSelfLining(state, waysOf(steps));
    authority.pos = index;
  }
  train.known = true;
  prune(world, state, authority.train);
  if (authority.state === 'acknowledged') authority.state = 'running';
}

/** On from a gap along the turnouts as they stand, to the next gap or end. */
function runOn(world: World, state: State, by: Passage): { pieces: Stretch[]; known: boolean } {
  const pieces: Stretch[] = [];
  let way: Passage | null = by;
  while (way !== null && pieces.length <= world.doc.edges.length) {
    const [a, b] = sure(world.track.ends[way.to]);
    const toward: string = a === way.node ? b : a;
    pieces.push({ edge: way.to, toward, by: way });
    if (isStop(world.track, toward)) return { pieces, known: true };
    const at: Spot = { edge: way.to, toward };
    const trailed: Passage | undefined = passages(world.track, at.edge, at.toward).find((one) => one.trails);
    if (trailed) moveSelfLining(state, [trailed]);
    way = onward(world.track, at, state.turnouts);
  }
  return { pieces, known: false };
}

/** The gap over which a train comes into a block that is not on its authority, or null: there is none. */
export function gapInto(world: World, state: State, id: string, block: string): Passage | null {
  const train = sure(state.trains[id]);
  const head = train.trail[0];
  if (train.known && head !== undefined) {
    const way = passages(world.track, head.edge, head.toward)[0];
    if (way?.gap && world.track.blockOf[way.to] === block) return way;
  }
  const occupied = authorityOf(state, id)?.occupied ?? [];
  for (const from of [...train.blocks.map((one) => one.block), ...occupied]) {
    const [way] = gapsBetween(world.track, from, block);
    if (way) return way;
  }
  return null;
}

/** A train comes into a block without an authority for it. */
export function enterElsewhere(world: World, state: State, id: string, block: string): void {
  const train = sure(state.trains[id]);
  const way = gapInto(world, state, id, block);
  if (way === null) train.known = false;
  else {
    const { pieces, known } = runOn(world, state, way);
    lengthened(world, state, train, pieces);
    train.known = known;
  }
  putInFront(state, train, block);
  prune(world, state, id);
}

export function leave(world: World, state: State, id: string, block: string): void {
  const train = sure(state.trains[id]);
  train.blocks = train.blocks.filter((one) => one.block !== block);
  prune(world, state, id);
}

/** Takes a train off a block that is settled; from its head's block the head goes back to the stretch before. */
export function settledOff(world: World, state: State, id: string, block: string): void {
  const train = sure(state.trains[id]);
  const wasHead = train.blocks[0]?.block === block;
  train.blocks = train.blocks.filter((one) => one.block !== block);
  const authority = authorityOf(state, id);
  if (authority) authority.occupied = authority.occupied.filter((one) => one !== block);
  if (wasHead) {
    const next = train.trail.findIndex((piece) => world.track.blockOf[piece.edge] !== block);
    train.trail = next < 0 ? [] : train.trail.slice(next);
  }
  if (authority?.kind === 'move' && authority.visits[authority.pos]?.block === block) authority.pos -= 1;
  prune(world, state, id);
  if (wasHead) {
    const front = train.trail[0];
    train.known = front !== undefined && isIn(state, id, sure(world.track.blockOf[front.edge]));
  }
}

export const nextVisit = (authority: Authority, block: string): number => {
  const index = ahead(authority).findIndex((visit) => visit.block === block);
  return index < 0 ? -1 : authority.pos + 1 + index;
};

/** A train lies back from a spot along the turnouts as they stand. */
export function layAt(world: World, state: State, id: string, spot: Spot): string[] {
  const train = sure(state.trains[id]);
  const { edge, toward } = spot;
  const settings: Record<string, Setting> = state.turnouts;
  train.trail = laidBack(world.track, { edge, toward }, sure(state.rolling[id]).length, settings).trail;
  train.known = true;
  train.stopped = true;
  return [...new Set(train.trail.map((piece) => sure(world.track.blockOf[piece.edge])))];
}
