/** Cars and engines that change trains: cuts set out and picked up, trains coupled and recounted. */

import type { Happening } from './alarms.ts';
import { end } from './grants.ts';
import { authorityOf, type Line, type Reason, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { gapsBetween, laidBack } from './track.ts';

const notNow = (about: string): Reason[] => [{ code: 'not-now', about: [about] }];

/** Whether any of some blocks is one of the train's, or next to one over a gap. */
function inReach(world: World, state: State, train: string, blocks: readonly string[]): boolean {
  const limits = authorityOf(state, train);
  const own = [
    ...sure(state.trains[train]).blocks.map(({ block }) => block),
    ...(limits?.kind === 'limits' ? limits.visits.map(({ block }) => block) : []),
  ];
  return blocks.some((block) =>
    own.some((one) => one === block || gapsBetween(world.track, one, block).length > 0),
  );
}

/** Blocks come to a train at its tail; a clear of them agrees whatever its length. */
function addAtTail(state: State, train: string, blocks: readonly string[]): void {
  const now = sure(state.trains[train]);
  for (const block of blocks) {
    if (now.blocks.some((one) => one.block === block)) continue;
    now.blocks.push({ block, cab: now.cab, since: 0, pickedUp: true });
  }
}

export function setOut(world: World, state: State, line: Line, happening: Happening): Reason[] {
  const { train, cut, length, edge, toward } = line;
  const rolling = state.rolling[train];
  if (!state.trains[train] || !rolling || length > rolling.length) return notNow(train);
  if (state.cuts[cut]) return notNow(cut);
  happening.reported.push(train);
  rolling.length -= length;
  const { trail } = laidBack(world.track, { edge, toward }, length, state.turnouts);
  const blocks = [...new Set(trail.map((piece) => sure(world.track.blockOf[piece.edge])))];
  state.cuts[cut] = { length, trail, blocks };
  return [];
}

export function pickUp(world: World, state: State, line: Line, happening: Happening): Reason[] {
  const { train, cut } = line;
  const cars = state.cuts[cut];
  if (!state.trains[train]) return notNow(train);
  if (!cars || !inReach(world, state, train, cars.blocks)) return notNow(cut);
  happening.reported.push(train);
  sure(state.rolling[train]).length += cars.length;
  addAtTail(state, train, cars.blocks);
  delete state.cuts[cut];
  return [];
}

export function couple(world: World, state: State, line: Line, happening: Happening): Reason[] {
  const { train, other } = line;
  const gone = state.trains[other];
  if (!state.trains[train]) return notNow(train);
  if (!gone || other === train || gone.cab !== state.trains[train].cab) return notNow(other);
  const blocks = gone.blocks.map(({ block }) => block);
  if (!inReach(world, state, train, blocks)) return notNow(other);
  happening.reported.push(train, other);
  const authority = authorityOf(state, other);
  if (authority) end(authority, 'annulled');
  delete state.trains[other];
  state.asks = state.asks.filter((ask) => ask.train !== other);
  addAtTail(state, train, blocks);
  sure(state.rolling[train]).length += sure(state.rolling[other]).length;
  sure(state.rolling[train]).amps += sure(state.rolling[other]).amps;
  return [];
}
