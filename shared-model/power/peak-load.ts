/** The worst moment of each throttle, selector contact and supply, over the moments of an evening or of a plan. */
import type { Railroad } from '../railroad/railroad.ts';
import type { Seconds } from '../units.ts';
import { type Draw, type Load, loadsOf } from './load.ts';

/** A load at the moment when it was highest; that of the first such moment. */
export interface Peak extends Load {
  readonly at: Seconds;
}

/** What draws current at a moment. */
export interface DrawsAt {
  readonly at: Seconds;
  readonly draws: readonly Draw[];
}

/**
 * Takes one more moment into account.
 *
 * @param peaks of the moments before, in the order of `loadsOf`; none before the first
 * @returns one entry for each throttle, then selector, then supply, in the file's order
 */
export function withMoment(
  railroad: Railroad,
  peaks: readonly Peak[],
  { at, draws }: DrawsAt,
): readonly Peak[] {
  return loadsOf(railroad, draws).map((load, index) => {
    const before = peaks[index];
    return before !== undefined && before.amps >= load.amps ? before : { ...load, at };
  });
}

/** The worst moment of each thing; every load is 0 at second 0 where there is no moment at all. */
export function peakLoads(railroad: Railroad, moments: readonly DrawsAt[]): readonly Peak[] {
  const idle = withMoment(railroad, [], { at: 0, draws: [] });
  return moments.reduce<readonly Peak[]>((peaks, moment) => withMoment(railroad, peaks, moment), idle);
}
