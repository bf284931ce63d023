/** How a cab is told from the others: its number in an outline of its own, and a hue. */
import { type Hex, lightenedUntil } from './contrast.ts';

/** The outline of the badge of cab 1, 2, 3… */
export const CAB_OUTLINES = ['circle', 'square', 'diamond', 'hexagon', 'triangle', 'shield'] as const;
export type CabOutline = (typeof CAB_OUTLINES)[number];

/**
 * Okabe and Ito's sky, orange, bluish green, yellow, reddish purple and blue, in the order of the cabs.
 * Source: Okabe and Ito, "Color Universal Design" (2002, 2008).
 */
export const CAB_HUES: readonly Hex[] = ['#56b4e9', '#e69f00', '#009e73', '#f0e442', '#cc79a7', '#0072b2'];
/** Their vermillion, kept for what is wrong. */
export const WRONG_HUE: Hex = '#d55e00';

/** The hues as they are used on a dark ground: each lightened only where it does not reach `least` by itself. */
export const huesOn = (ground: Hex, least: number): readonly Hex[] =>
  CAB_HUES.map((hue) => lightenedUntil(hue, ground, least));

/** The outline and hue (0 to 5) of the throttle that is the `index`th of the railroad, counted from 0. Beyond six they come again. */
export function cabLook(index: number): { readonly outline: CabOutline; readonly hue: number } {
  const hue = index % CAB_OUTLINES.length;
  return { outline: CAB_OUTLINES[hue] ?? 'circle', hue };
}
