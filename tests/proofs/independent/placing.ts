/** Placing, lifting off, settling, changing the cab, releasing limits: orders about where trains are and whose. */

import { type Happening, raiseWrongThrottle } from './alarms.ts';
import { canBe, straightThrottle } from './feed.ts';
import { end } from './grants.ts';
import { enterVisits, layAt, settledOff } from './movement.ts';
import {
  addReason,
  ahead,
  authorityOf,
  inForce,
  isIn,
  type Line,
  type Reason,
  type State,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import { isStop, laidBack } from './track.ts';
import { cutsIn, holders, trainsIn } from './views.ts';

const notNow = (about: string): Reason[] => [{ code: 'not-now', about: [about] }];

/** What a block under a train must be for a cab: wired for it, and not straight to another throttle. */
function wiring(world: World, block: string, cab: string, reasons: Reason[]): void {
  const throttle = straightThrottle(world, block);
  if (throttle !== null && throttle !== cab) addReason(reasons, 'hand-off-needed', block, throttle);
  if (throttle === null && !canBe(world, block, cab)) addReason(reasons, 'cab-not-wired', block, cab);
}

export function placeTrain(
  world: World,
  state: State,
  line: Line,
  happening: Happening,
  force: boolean,
): Reason[] {
  const { train, edge, toward } = line;
  const cab: string | null = line.cab ?? null;
  if (state.trains[train] || !isStop(world.track, toward)) return notNow(train);
  const { length } = sure(state.rolling[train]);
  const { trail, fits } = laidBack(world.track, { edge, toward }, length, state.turnouts);
  const blocks = [...new Set(trail.map((piece) => sure(world.track.blockOf[piece.edge])))];
  const reasons: Reason[] = [];
  if (!fits) addReason(reasons, 'train-too-long', train, sure(blocks[0]));
  for (const block of blocks) {
    const others = [...trainsIn(state, block).map((one) => one.train), ...cutsIn(state, block)];
    const known = [...Object.keys(state.rolling), ...Object.keys(state.cuts)];
    others.sort((a, b) => known.indexOf(a) - known.indexOf(b));
    for (const other of others) addReason(reasons, 'block-occupied', block, other);
    for (const holder of holders(world, state, block))
      if (!others.includes(holder.train)) addReason(reasons, 'block-owned', block, holder.train, holder.cab);
    if (state.disputed[block]) addReason(reasons, 'block-disputed', block);
    if (cab !== null) wiring(world, block, cab, reasons);
  }
  if (reasons.length > 0 && !force) return reasons;
  state.trains[train] = {
    cab,
    trail,
    known: true,
    blocks: blocks.map((block) => {
      state.arrivals += 1;
      return { block, cab, since: state.arrivals, pickedUp: false };
    }),
    stopped: true,
    handOffs: {},
  };
  raiseWrongThrottle(world, state, blocks, happening);
  return [];
}

export function takeOff(state: State, line: Line): Reason[] {
  const { train } = line;
  if (!state.trains[train]) return notNow(train);
  const authority = authorityOf(state, train);
  if (authority) end(authority, 'annulled');
  delete state.trains[train];
  state.derailed = state.derailed.filter((one) => one !== train);
  state.asks = state.asks.filter((ask) => ask.train !== train);
  return [];
}

function cutsOff(state: State, block: string): void {
  for (const cut of Object.values(state.cuts)) cut.blocks = cut.blocks.filter((one) => one !== block);
}

/** Takes everything off a disputed block; it is nobody's, or whose authority still has it ahead. */
export function settleOpen(world: World, state: State, block: string, happening: Happening): void {
  happening.settled.push(block);
  for (const { train } of trainsIn(state, block)) settledOff(world, state, train, block);
  cutsOff(state, block);
  delete state.disputed[block];
}

export function settle(world: World, state: State, line: Line, happening: Happening): Reason[] {
  const { block, train } = line;
  if (!state.disputed[block]) return notNow(block);
  if (line.state === 'open') {
    settleOpen(world, state, block, happening);
    return [];
  }
  if (train === undefined) return notNow(block);
  if (!state.trains[train]) return notNow(train);
  happening.settled.push(block);
  for (const other of trainsIn(state, block))
    if (other.train !== train) settledOff(world, state, other.train, block);
  for (const authority of state.authorities.filter(inForce)) {
    if (authority.train === train) continue;
    const has =
      ahead(authority).some((visit) => visit.block === block) ||
      (authority.kind === 'limits' && authority.visits.some((visit) => visit.block === block));
    if (has) end(authority, 'annulled');
  }
  delete state.disputed[block];
  if (isIn(state, train, block)) return [];
  const authority = authorityOf(state, train);
  if (authority && ahead(authority)[0]?.block === block)
    enterVisits(world, state, authority, authority.pos + 1);
  else {
    const now = state.trains[train];
    state.arrivals += 1;
    now.blocks.push({ block, cab: now.cab, since: state.arrivals, pickedUp: false });
  }
  return [];
}

export function changeCab(world: World, state: State, line: Line): Reason[] {
  const { train, cab } = line;
  const now = state.trains[train];
  if (!now || (!now.stopped && !state.derailed.includes(train))) return notNow(train);
  const authority = authorityOf(state, train);
  if (authority) return notNow(authority.id);
  if (state.persons[cab] === null) return notNow(cab);
  const reasons: Reason[] = [];
  for (const { block } of now.blocks) wiring(world, block, cab, reasons);
  if (reasons.length > 0) return reasons;
  now.cab = cab;
  for (const standing of now.blocks) standing.cab = cab;
  return [];
}

export function releaseLimits(world: World, state: State, line: Line): Reason[] {
  const { train, edge, toward } = line;
  const authority = authorityOf(state, train);
  if (!state.trains[train] || authority?.kind !== 'limits') return notNow(train);
  const { trail, fits } = laidBack(
    world.track,
    { edge, toward },
    sure(state.rolling[train]).length,
    state.turnouts,
  );
  const inside = (block: string): boolean =>
    authority.visits.some((visit) => visit.block === block) ||
    (isIn(state, train, block) && !state.disputed[block]);
  if (!fits || !trail.every((piece) => inside(sure(world.track.blockOf[piece.edge])))) return notNow(train);
  const now = state.trains[train];
  const blocks = layAt(world, state, train, { edge, toward });
  now.blocks = blocks.map((block) => {
    const old = now.blocks.find((one) => one.block === block);
    state.arrivals += 1;
    return { block, cab: now.cab, since: old?.since ?? state.arrivals, pickedUp: false };
  });
  end(authority, 'fulfilled');
  return [];
}
