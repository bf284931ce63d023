/** Who has what, derived anew from the trains, cuts and authorities: blocks, locks, gaps under trains. */

import { feedOf, parentsOf, toggleOf } from './feed.ts';
import {
  type Authority,
  ahead,
  authorityOf,
  inForce,
  isIn,
  placed,
  type State,
  type Visit,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import {
  blockOfPassage,
  gapsBetween,
  type Passage,
  type Setting,
  type Stretch,
  underOf,
  within,
} from './track.ts';

export interface BlockView {
  state: 'open' | 'pledged' | 'lined' | 'occupied' | 'disputed';
  cab: string | null;
  train: string | null;
}

/** The edges under a train, head first. None while nobody knows its place. */
export function under(world: World, state: State, train: string): Stretch[] {
  const now = state.trains[train];
  if (now === undefined || !now.known || now.trail.length === 0) return [];
  return underOf(world.track, now.trail, sure(state.rolling[train]).length);
}

export const blocksUnder = (world: World, state: State, train: string): string[] => [
  ...new Set(under(world, state, train).map((piece) => sure(world.track.blockOf[piece.edge]))),
];

/** Authorities that hold a block: with it still ahead, in their limits, or as the parent of a section. Without those merely in it. */
export function holders(world: World, state: State, block: string): { train: string; cab: string }[] {
  return state.authorities.filter(inForce).flatMap((authority) => {
    const cab = holdOf(world, state, authority, block);
    return cab === null ? [] : [{ train: authority.train, cab }];
  });
}

function holdOf(world: World, state: State, authority: Authority, block: string): string | null {
  const direct = ahead(authority).find((visit) => visit.block === block);
  if (direct !== undefined) return direct.cab;
  if (authority.kind === 'limits') {
    const named = authority.visits.find((visit) => visit.block === block);
    if (named !== undefined && !authority.occupied.includes(block)) return named.cab;
  }
  return parentHold(world, state, authority, block);
}

/** The cab for which an authority holds a block as the parent of a section, or null. */
function parentHold(world: World, state: State, authority: Authority, parent: string): string | null {
  const coming: Visit[] =
    authority.kind === 'move'
      ? ahead(authority)
      : authority.visits.filter((visit) => !authority.occupied.includes(visit.block));
  for (const visit of coming) if (parentsOf(world, visit.block).includes(parent)) return visit.cab;
  const train = sure(state.trains[authority.train]);
  const waiting = authority.pos < 0 && (authority.kind === 'move' || authority.state === 'granted');
  const stands = [
    ...train.blocks.map(({ block, cab }) => ({ block, cab })),
    ...authority.occupied.map((block) => ({ block, cab: train.cab })),
  ];
  for (const { block, cab } of stands) {
    const chain = [block, ...parentsOf(world, block)];
    const depth = chain.indexOf(parent);
    if (depth < 1 || cab === null) continue;
    if (waiting || chain.slice(0, depth).every((one) => state.toggles[sure(toggleOf(world, one))]))
      return cab;
  }
  return null;
}

/** Trains that are in a block, the one that came last (its owner) first; trains with the block in limits count. */
export function trainsIn(state: State, block: string): { train: string; cab: string | null }[] {
  const standing = placed(state).flatMap((train) => {
    const now = sure(state.trains[train]);
    const one = now.blocks.find((standing) => standing.block === block);
    if (one !== undefined) return [{ train, cab: one.cab, since: one.since }];
    const authority = authorityOf(state, train);
    return authority?.occupied.includes(block) ? [{ train, cab: now.cab, since: 0 }] : [];
  });
  return standing.sort((a, b) => b.since - a.since).map(({ train, cab }) => ({ train, cab }));
}

export const cutsIn = (state: State, block: string): string[] =>
  Object.keys(state.cuts).filter((cut) => sure(state.cuts[cut]).blocks.includes(block));

/** Whether a turnout stands as each passage (of one block) asks. */
export const standRight = (state: State, ways: readonly Passage[]): boolean =>
  ways.every((way) => way.setting === null || way.trails || state.turnouts[way.node] === way.setting);

export const waysOf = (steps: readonly Stretch[]): Passage[] =>
  steps.flatMap((step) => (step.by === null ? [] : [step.by]));

/** The turnouts of a move in one of its blocks, as far as the next time it comes there. */
function waysInBlock(authority: Authority, block: string): Passage[] {
  return waysOf(ahead(authority).find((visit) => visit.block === block)?.steps ?? []);
}

/** What a block is to everybody. */
export function viewOf(world: World, state: State, block: string): BlockView {
  const before = state.disputed[block];
  if (before !== undefined) return { state: 'disputed', ...before };
  const [owner] = trainsIn(state, block);
  if (owner !== undefined) return { state: 'occupied', cab: owner.cab, train: owner.train };
  const [cut] = cutsIn(state, block);
  if (cut !== undefined) return { state: 'occupied', cab: null, train: cut };
  const [holder] = holders(world, state, block);
  if (holder === undefined) return { state: 'open', cab: null, train: null };
  const authority = sure(authorityOf(state, holder.train));
  const right =
    feedOf(world, state, block) === holder.cab && standRight(state, waysInBlock(authority, block));
  return { state: right ? 'lined' : 'pledged', ...holder };
}

/** Something that keeps a turnout or a diamond as it is. */
export interface Lock {
  train: string;
  way: Passage;
  /** 'ahead': an authority that has it still to come; 'behind': its block is not given back; 'under': wheels stand on it. */
  how: 'ahead' | 'behind' | 'under';
}

/** Of an authority's locks on one turnout, which may be passed and later trailed: how it was passed last, and how it comes next. */
function nextAndLast(locks: readonly Lock[]): Lock[] {
  const same = (one: Lock, other: Lock): boolean =>
    one.way.setting !== null &&
    one.way.node === other.way.node &&
    (one.how === 'ahead') === (other.how === 'ahead');
  return locks.filter((lock, index) =>
    lock.how === 'ahead'
      ? !locks.slice(0, index).some((other) => same(other, lock))
      : !locks.slice(index + 1).some((other) => same(other, lock)),
  );
}

/** Every lock there is. Turnouts wholly inside a train's own limits are not locked by it. */
export function locks(world: World, state: State): Lock[] {
  const found: Lock[] = [];
  for (const authority of state.authorities.filter(inForce)) {
    if (authority.kind === 'limits') continue;
    const { train } = authority;
    const mine: Lock[] = [];
    for (const way of waysOf(authority.led))
      if (isIn(state, train, blockOfPassage(world.track, way))) mine.push({ train, way, how: 'behind' });
    for (const way of waysOf(authority.lead)) mine.push({ train, way, how: 'ahead' });
    authority.visits.forEach((visit, index) => {
      const how = index > authority.pos ? 'ahead' : isIn(state, train, visit.block) ? 'behind' : null;
      if (how !== null) for (const way of waysOf(visit.steps)) mine.push({ train, way, how });
    });
    found.push(...nextAndLast(mine));
  }
  for (const train of placed(state)) {
    const limits = authorityOf(state, train);
    const inside = limits?.kind === 'limits' ? limits.visits.map((visit) => visit.block) : [];
    for (const way of within(under(world, state, train))) {
      const block = blockOfPassage(world.track, way);
      if (!inside.includes(block)) found.push({ train, way, how: 'under' });
    }
  }
  for (const [cut, { trail, length }] of Object.entries(state.cuts))
    for (const way of within(underOf(world.track, trail, length)))
      found.push({ train: cut, way, how: 'under' });
  return found;
}

export const locksOn = (world: World, state: State, node: string): Lock[] =>
  locks(world, state).filter(({ way }) => way.node === node && (way.setting !== null || way.diamond));

/** Whether a lock asks for a setting that a turnout does not have. A trailed self-lining turnout may stand anyhow. */
export const wrongFor = (lock: Lock, setting: Setting): boolean =>
  lock.way.setting !== null && lock.way.setting !== setting && !(lock.way.trails && lock.how !== 'under');

/**
 * The gaps that a train stands across: both sides entered and not yet cleared. Where nobody knows how it came into a block
 * (settled, picked up), it is the first gap in the file that joins it with another of the train's, the head's first.
 */
export function gapsUnder(world: World, state: State, train: string): Passage[] {
  const now = state.trains[train];
  if (now === undefined) return [];
  const known = within(now.trail).filter((way) => {
    const from = sure(world.track.blockOf[way.from]);
    const to = sure(world.track.blockOf[way.to]);
    return from !== to && isIn(state, train, from) && isIn(state, train, to);
  });
  const onTrail = now.trail.map((piece) => world.track.blockOf[piece.edge]);
  const guessed = now.blocks
    .filter(({ block }) => !onTrail.includes(block))
    .flatMap(({ block }) =>
      now.blocks.flatMap((other) => gapsBetween(world.track, other.block, block).slice(0, 1)).slice(0, 1),
    );
  return [...known, ...guessed];
}

/** The cab whose a block is under a train. */
export function cabAt(state: State, train: string, block: string): string | null {
  return state.trains[train]?.blocks.find((one) => one.block === block)?.cab ?? null;
}
