/** What a train needs of each block, turnout and crossing, and of the railroad as a whole, and what stands against it. */

import {
  canBe,
  feedOf,
  knobOf,
  liveBehind,
  parentsOf,
  phaseCode,
  rootSelector,
  sourceOf,
  straightThrottle,
  supplyOf,
} from './feed.ts';
import { addReason, authorityOf, inForce, placed, type Reason, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import type { Passage } from './track.ts';
import { cutsIn, holders, locksOn, trainsIn } from './views.ts';

const BLOCK_CODES = [
  'out-of-service',
  'block-occupied',
  'block-owned',
  'block-disputed',
  'cab-not-wired',
  'hand-off-needed',
  'unphased-gap',
  'phase-unknown',
  'section-live',
];

export interface BlockNeed {
  train: string;
  block: string;
  cab: string;
  /** The cab before the gap into the block. */
  cabBefore: string;
  /** What the gap codes name first: the gap into the block, or the block itself for a hand-off under the train. */
  gap: string;
  /** A train or cut that may be in it. */
  joining: string | null;
  ownTail: boolean;
}

/** Occupied, owned, disputed, live sections: what is asked of a block and of the parents of a section alike. */
function ownership(world: World, state: State, need: BlockNeed, block: string, reasons: Reason[]): void {
  const others = [...trainsIn(state, block).map(({ train }) => train), ...cutsIn(state, block)]
    .filter((one) => one !== need.train)
    .sort((a, b) => order(state, a) - order(state, b));
  const joining = block === need.block ? need.joining : null;
  for (const one of others) if (one !== joining) addReason(reasons, 'block-occupied', block, one);
  if (block === need.block && need.ownTail) addReason(reasons, 'block-occupied', block, need.train);
  for (const { train, cab } of holders(world, state, block))
    if (train !== need.train && !others.includes(train)) addReason(reasons, 'block-owned', block, train, cab);
  if (state.disputed[block]) addReason(reasons, 'block-disputed', block);
  for (const section of liveBehind(world, state, block))
    for (const { train } of trainsIn(state, section))
      if (train !== need.train) addReason(reasons, 'section-live', knobOf(world, section), train);
}

const order = (state: State, thing: string): number => {
  const index = [...Object.keys(state.rolling), ...Object.keys(state.cuts)].indexOf(thing);
  return index < 0 ? Number.MAX_SAFE_INTEGER : index;
};

/** Tags on a block and on its own knob: a frozen selector still serves the cab it stands at, a toggle that is on may stay on. */
function tags(world: World, state: State, need: BlockNeed, block: string, reasons: Reason[]): void {
  if (state.tags.includes(block)) addReason(reasons, 'out-of-service', block);
  const source = sourceOf(world, block);
  if (
    'selector' in source &&
    state.tags.includes(source.selector) &&
    state.selectors[source.selector] !== need.cab
  )
    addReason(reasons, 'out-of-service', source.selector);
  if ('toggle' in source && state.tags.includes(source.toggle) && !state.toggles[source.toggle])
    addReason(reasons, 'out-of-service', source.toggle);
}

export const inTableOrder = (reasons: Reason[]): Reason[] =>
  [...reasons].sort((a, b) => BLOCK_CODES.indexOf(a.code) - BLOCK_CODES.indexOf(b.code));

/** Everything against a train's use of a block, its parents' reasons among its own, in the order of the table. */
export function blockReasons(world: World, state: State, need: BlockNeed): Reason[] {
  const { block, cab } = need;
  const reasons: Reason[] = [];
  tags(world, state, need, block, reasons);
  ownership(world, state, need, block, reasons);
  const wiredTo = straightThrottle(world, block);
  if (wiredTo === null && !canBe(world, block, cab)) addReason(reasons, 'cab-not-wired', block, cab);
  if (wiredTo !== null && wiredTo !== cab) {
    const code = phaseCode(world, state, cab, wiredTo);
    if (code === null) addReason(reasons, 'hand-off-needed', block, wiredTo);
    else addReason(reasons, code, need.gap, supplyOf(world, cab), supplyOf(world, wiredTo));
  }
  const handOff = need.cabBefore === cab ? null : phaseCode(world, state, need.cabBefore, cab);
  if (handOff !== null)
    addReason(reasons, handOff, need.gap, supplyOf(world, need.cabBefore), supplyOf(world, cab));
  for (const parent of parentsOf(world, block)) {
    tags(world, state, need, parent, reasons);
    ownership(world, state, need, parent, reasons);
  }
  return inTableOrder(reasons);
}

/** What stands against the parents of the sections that a train stands in, head first. */
export function standingReasons(world: World, state: State, train: string): Reason[] {
  const reasons: Reason[] = [];
  for (const { block, cab } of state.trains[train]?.blocks ?? []) {
    if (cab === null) continue;
    const need = { train, block, cab, cabBefore: cab, gap: block, joining: null, ownTail: false };
    const here: Reason[] = [];
    for (const parent of parentsOf(world, block)) {
      tags(world, state, need, parent, here);
      ownership(world, state, need, parent, here);
    }
    for (const { code, about } of inTableOrder(here)) addReason(reasons, code, ...about);
  }
  return reasons;
}

/** What stands against the ways through turnouts and crossings, in route order. */
export function wayReasons(world: World, state: State, train: string, ways: readonly Passage[]): Reason[] {
  const reasons: Reason[] = [];
  for (const way of ways) {
    if (way.setting === null && !way.diamond) continue;
    const tagged = state.tags.includes(way.node) && way.setting !== null && !way.trails;
    if (tagged && state.turnouts[way.node] !== way.setting) addReason(reasons, 'out-of-service', way.node);
    const others = locksOn(world, state, way.node).filter((lock) => lock.train !== train);
    if (
      way.setting !== null &&
      others.some((lock) => lock.how === 'under' || lock.way.setting !== way.setting)
    )
      addReason(reasons, 'turnout-locked', way.node);
    const same = (other: Passage): boolean =>
      [other.from, other.to].sort().join() === [way.from, way.to].sort().join();
    if (way.diamond && (others.some((lock) => !same(lock.way)) || inOtherLimits(world, state, train, way)))
      addReason(reasons, 'crossing-taken', way.node);
  }
  return reasons;
}

/** Whether the other way of a diamond lies in another train's limits. */
function inOtherLimits(world: World, state: State, train: string, way: Passage): boolean {
  const crossing = sure(world.doc.nodes.find((node) => node.id === way.node));
  if (crossing.kind !== 'crossing') return false;
  const others = crossing.ways.flat().filter((edge) => edge !== way.from && edge !== way.to);
  return state.authorities
    .filter((one) => inForce(one) && one.kind === 'limits' && one.train !== train)
    .some((one) =>
      one.visits.some((visit) => others.some((edge) => world.track.blockOf[edge] === visit.block)),
    );
}

export interface WholeNeed {
  train: string;
  together: readonly string[];
  cabs: readonly string[];
  blocks: readonly string[];
  /** The block in which the train would be too long, or null. */
  tooLongIn: string | null;
}

/** The rest of the table: throttles, supplies and train out of service, trains that would start too, length, amps. */
export function wholeReasons(world: World, state: State, need: WholeNeed): Reason[] {
  const { train, cabs, together } = need;
  const reasons: Reason[] = [];
  const supplies = [...new Set(cabs.map((cab) => supplyOf(world, cab)))];
  for (const thing of [...cabs, ...supplies, train])
    if (state.tags.includes(thing)) addReason(reasons, 'out-of-service', thing);
  for (const cab of cabs)
    for (const other of placed(state))
      if (other !== train && !together.includes(other))
        for (const { block } of sure(state.trains[other]).blocks)
          if (feedOf(world, state, block) === cab)
            addReason(reasons, 'second-train-live', knobOf(world, block), other);
  if (need.tooLongIn !== null) addReason(reasons, 'train-too-long', train, need.tooLongIn);
  for (const reason of overloads(world, state, need, supplies))
    addReason(reasons, reason.code, ...reason.about);
  return reasons;
}

function overloads(world: World, state: State, need: WholeNeed, supplies: readonly string[]): Reason[] {
  const reasons: Reason[] = [];
  const ampsOf = (train: string): number => state.rolling[train]?.amps ?? 0;
  const sum = (trains: Iterable<string>): number =>
    [...trains].reduce((all, train) => all + ampsOf(train), 0);
  const more = (amps: number, limit: number): boolean => amps > limit + 1e-9;
  for (const cab of need.cabs)
    if (
      more(
        sum(new Set([need.train, ...need.together])),
        sure(world.doc.throttles.find((t) => t.id === cab)).maxAmps,
      )
    )
      addReason(reasons, 'overload', cab);
  for (const block of need.blocks) {
    const selector = world.doc.selectors.find((one) => one.id === rootSelector(world, block));
    if (selector && more(ampsOf(need.train), selector.contactAmps))
      addReason(reasons, 'overload', selector.id);
  }
  for (const id of supplies) {
    const supply = sure(world.doc.supplies.find((one) => one.id === id));
    const moving = placed(state).filter((other) => {
      const cab = sure(state.trains[other]).cab;
      return authorityOf(state, other) && cab !== null && supplyOf(world, cab) === id;
    });
    if (more(sum(new Set([need.train, ...moving])), supply.ratedVa / supply.maxVolts))
      addReason(reasons, 'overload', id);
  }
  return reasons;
}
