/** What feeds a block at this moment, by the recorded positions of knobs and toggles. */
import type { BlockId, SelectorId, ThrottleId, ToggleId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { World } from '../world.ts';

/** The block that a section gets its feed from; null for a block with a source of its own. */
export function parentOf(railroad: Railroad, block: BlockId): BlockId | null {
  const source = railroad.blocks.get(block)?.source;
  return source !== undefined && 'toggle' in source ? source.from : null;
}

/** A block's parents, nearest first; none for a block with a selector or a throttle of its own. */
export function parentsOf(railroad: Railroad, block: BlockId): readonly BlockId[] {
  const parents: BlockId[] = [];
  for (let at = parentOf(railroad, block); at !== null && !parents.includes(at); at = parentOf(railroad, at))
    parents.push(at);
  return parents;
}

/** The block at the root of a feed. */
export function rootOf(railroad: Railroad, block: BlockId): BlockId {
  return parentsOf(railroad, block).at(-1) ?? block;
}

/** The selector at the root of a block's feed, if there is one. */
export function rootSelector(railroad: Railroad, block: BlockId): SelectorId | null {
  const source = railroad.blocks.get(rootOf(railroad, block))?.source;
  return source !== undefined && 'selector' in source ? source.selector : null;
}

/** The throttle that a block (or the root of its section) is wired straight to, if it is. */
export function straightThrottle(railroad: Railroad, block: BlockId): ThrottleId | null {
  const source = railroad.blocks.get(rootOf(railroad, block))?.source;
  return source !== undefined && 'throttle' in source ? source.throttle : null;
}

/** A section's own toggle; null for a block that is no section. */
export function ownToggle(railroad: Railroad, block: BlockId): ToggleId | null {
  const source = railroad.blocks.get(block)?.source;
  return source !== undefined && 'toggle' in source ? source.toggle : null;
}

/** The toggles between the root and the block, from the root outwards. */
export function togglesTo(railroad: Railroad, block: BlockId): readonly ToggleId[] {
  return [block, ...parentsOf(railroad, block)]
    .map((at) => ownToggle(railroad, at))
    .filter((toggle) => toggle !== null)
    .reverse();
}

/** The throttle that feeds a block now; null while it is dead. A tripped breaker is not looked at. */
export function feedNow({ railroad, state }: World, block: BlockId): ThrottleId | null {
  if (togglesTo(railroad, block).some((toggle) => state.toggles[toggle]?.on !== true)) return null;
  const straight = straightThrottle(railroad, block);
  if (straight !== null) return straight;
  const selector = rootSelector(railroad, block);
  const position = selector === null ? undefined : state.selectors[selector]?.position;
  return position === undefined || position === 'off' ? null : position;
}

/** The sections behind a block whose toggles, back to that block, are all on. */
export function liveSectionsBehind({ railroad, state }: World, block: BlockId): readonly BlockId[] {
  return railroad.document.blocks
    .map(({ id }) => id)
    .filter((id) => {
      const parents = parentsOf(railroad, id);
      const depth = parents.indexOf(block);
      if (depth < 0) return false;
      return [id, ...parents.slice(0, depth)].every((at) => {
        const toggle = ownToggle(railroad, at);
        return toggle !== null && state.toggles[toggle]?.on === true;
      });
    });
}

/** The blocks with this selector as their own source. */
export function blocksOfSelector(railroad: Railroad, selector: SelectorId): readonly BlockId[] {
  return railroad.document.blocks
    .filter(({ source }) => 'selector' in source && source.selector === selector)
    .map(({ id }) => id);
}

/** The sections with this toggle as their own source. */
export function sectionsOfToggle(railroad: Railroad, toggle: ToggleId): readonly BlockId[] {
  return railroad.document.blocks
    .filter(({ source }) => 'toggle' in source && source.toggle === toggle)
    .map(({ id }) => id);
}

/** What a block is switched by: its selector, its toggle, or itself when it is wired straight to a throttle. */
export function switchOf(railroad: Railroad, block: BlockId): string {
  const source = railroad.blocks.get(block)?.source;
  if (source === undefined) return block;
  if ('selector' in source) return source.selector;
  return 'toggle' in source ? source.toggle : block;
}

/** Whether the dial (or the straight wire) at the root of a block's feed has this cab at all. */
export function isWiredFor(railroad: Railroad, block: BlockId, cab: ThrottleId): boolean {
  const selector = rootSelector(railroad, block);
  if (selector === null) return straightThrottle(railroad, block) === cab;
  return railroad.selectors.get(selector)?.positions.includes(cab) === true;
}
