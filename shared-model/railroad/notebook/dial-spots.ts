/** Where the positions of a dial lie round its knob. */
import type { Selector } from '../document.ts';

export interface DialSpot {
  readonly position: Selector['positions'][number];
  /** Degrees clockwise from straight up. */
  readonly degrees: number;
}

/** Common rotary switches step by 30 degrees, twelve to the turn (common practice, no source); more positions lie closer. */
const STEP = 30;
/** A dial with end stops leaves this much of the turn free at the bottom. */
const FREE = 60;

/**
 * The spots of a dial, in the order of its positions, clockwise. With end stops they lie evenly about the top; without, the first is at
 * the top and they go all round.
 */
export function dialSpots({ positions, stops }: Pick<Selector, 'positions' | 'stops'>): readonly DialSpot[] {
  const steps = Math.max(1, positions.length - 1);
  const step = stops ? Math.min(STEP, (360 - FREE) / steps) : 360 / positions.length;
  const first = stops ? (-step * (positions.length - 1)) / 2 : 0;
  return positions.map((position, index) => ({ position, degrees: first + index * step }));
}
