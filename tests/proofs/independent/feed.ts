/** What feeds a block: its root, the toggles on the way, what is recorded to stand there, and what lies behind it. */

import { relation } from './phase.ts';
import type { State, World } from './state.ts';
import { sure } from './sure.ts';

export const sourceOf = (world: World, block: string) =>
  sure(world.doc.blocks.find((one) => one.id === block)).source;

/** The block a section hangs behind, or null. */
export function parentOf(world: World, block: string): string | null {
  const source = sourceOf(world, block);
  return 'toggle' in source ? source.from : null;
}

/** The parents of a section, nearest first; none for a block with a source of its own. */
export function parentsOf(world: World, block: string): string[] {
  const parent = parentOf(world, block);
  return parent === null ? [] : [parent, ...parentsOf(world, parent)];
}

export const rootOf = (world: World, block: string): string => parentsOf(world, block).at(-1) ?? block;

export function toggleOf(world: World, block: string): string | null {
  const source = sourceOf(world, block);
  return 'toggle' in source ? source.toggle : null;
}

export function rootSelector(world: World, block: string): string | null {
  const source = sourceOf(world, rootOf(world, block));
  return 'selector' in source ? source.selector : null;
}

export function straightThrottle(world: World, block: string): string | null {
  const source = sourceOf(world, rootOf(world, block));
  return 'throttle' in source ? source.throttle : null;
}

/** The knob of a block: its selector, its toggle, or the block itself if wired straight. */
export function knobOf(world: World, block: string): string {
  const source = sourceOf(world, block);
  if ('selector' in source) return source.selector;
  return 'toggle' in source ? source.toggle : block;
}

/** The throttle that feeds a block as recorded, or null: it is off. */
export function feedOf(world: World, state: State, block: string): string | null {
  const source = sourceOf(world, block);
  if ('throttle' in source) return source.throttle;
  if ('toggle' in source) return state.toggles[source.toggle] ? feedOf(world, state, source.from) : null;
  const position = sure(state.selectors[source.selector]);
  return position === 'off' ? null : position;
}

/** Whether a dial has a position for a cab (or the block is wired straight to it). */
export function canBe(world: World, block: string, cab: string): boolean {
  const selector = rootSelector(world, block);
  if (selector === null) return straightThrottle(world, block) === cab;
  return sure(world.doc.selectors.find((one) => one.id === selector)).positions.includes(cab as never);
}

/** Sections behind a block whose toggles, all the way to it, are on; in the order of the file. */
export function liveBehind(world: World, state: State, block: string): string[] {
  return world.doc.blocks
    .map((one) => one.id as string)
    .filter((id) => {
      const chain = [id, ...parentsOf(world, id)];
      const depth = chain.indexOf(block);
      return depth > 0 && chain.slice(0, depth).every((one) => state.toggles[sure(toggleOf(world, one))]);
    });
}

export const supplyOf = (world: World, throttle: string): string =>
  sure(world.doc.throttles.find((one) => one.id === throttle)).supply;

/** The code that says why two throttles may not meet across a gap, or null where their supplies are in phase. */
export function phaseCode(world: World, state: State, one: string, other: string): string | null {
  const phase = relation(state.checks, supplyOf(world, one), supplyOf(world, other));
  if (phase === 'in-phase') return null;
  return phase === 'unknown' ? 'phase-unknown' : 'unphased-gap';
}
