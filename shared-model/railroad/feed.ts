/** What feeds a block in the end: a section behind a toggle inherits the source of its root. */
import type { BlockId, SelectorId, SupplyId, ThrottleId, ToggleId } from '../ids.ts';
import type { Railroad } from './railroad.ts';

export interface Feed {
  /** The block whose own source is a selector or a throttle; the block itself where no toggle lies between. */
  readonly root: BlockId;
  /** The knob at the root; a block wired straight to a throttle has none. */
  readonly selector: SelectorId | null;
  /** Toggles between, from the root outwards. */
  readonly toggles: readonly ToggleId[];
  /** Every throttle that may come to feed it, in the order of the dial. */
  readonly throttles: readonly ThrottleId[];
}

/**
 * Follows a block's feed to its root.
 *
 * @returns the feed; null where toggles feed each other in a circle or a reference is broken (the audit names those)
 */
export function feedOf(railroad: Railroad, block: BlockId): Feed | null {
  const toggles: ToggleId[] = [];
  const seen = new Set<BlockId>();
  for (let at = block; !seen.has(at); ) {
    seen.add(at);
    const source = railroad.blocks.get(at)?.source;
    if (source === undefined) return null;
    if ('throttle' in source) return { root: at, selector: null, toggles, throttles: [source.throttle] };
    if ('selector' in source) {
      const positions = railroad.selectors.get(source.selector)?.positions ?? [];
      const throttles = positions.filter(
        (position): position is ThrottleId => position !== null && position !== 'off',
      );
      return { root: at, selector: source.selector, toggles, throttles: [...new Set(throttles)] };
    }
    toggles.unshift(source.toggle);
    at = source.from;
  }
  return null;
}

/** The supplies of a list of throttles, each once, in that order. */
export function suppliesOf(railroad: Railroad, throttles: readonly ThrottleId[]): readonly SupplyId[] {
  const supplies = throttles.map((throttle) => railroad.throttles.get(throttle)?.supply);
  return [...new Set(supplies.filter((supply) => supply !== undefined))];
}
