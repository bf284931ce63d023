/** How much of a time a block is taken. */
import type { Seconds } from '../../units.ts';

/** A time in which a block is taken. */
interface Taken {
  readonly from: Seconds;
  readonly till: Seconds;
}

/**
 * The occupancy of a block by compression: its blocking times pushed together without a gap, as a share of a window. An estimate.
 *
 * @param taken blocking times that do not overlap
 * @param window seconds
 * @returns from 0; above 1 where they do not fit into the window
 * Method: UIC Code 406 (2004, 2013), compression of the timetable.
 */
export function occupancyShare(taken: readonly Taken[], window: Seconds): number {
  return taken.reduce((sum, { from, till }) => sum + till - from, 0) / window;
}
