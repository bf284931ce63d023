/** Where a train stands: its head at a gap or an end of track, the rest behind it along the way it came. */
import type { Millimetres } from '../units.ts';
import { must, type TrackTable, turnedSpot } from './track-table.ts';

/** Lengths are sums of millimetres in floating point; a tail nearer to a gap than this is at the gap, and clear of what is behind. */
export const HAIR_MM = 1e-6;

export interface Standing {
  /** Numbers of the directed edges under the train, head first. */
  readonly spots: readonly number[];
  /** From the head to the end of its edge: 0 at a gap or an end of track; after a change of facing the head may be short of one. */
  readonly aheadMm: Millimetres;
  /** The resources that it has: the blocks under it, and the diamonds between head and tail. Ascending. */
  readonly under: readonly number[];
  /** The block of its head; -1 on dead track. */
  readonly block: number;
}

/** The diamond between a spot and the next one on; -1 where there is none. */
export function diamondBetween(table: TrackTable, spot: number, next: number): number {
  return table.ways[spot]?.find((way) => way.to === next)?.diamond ?? -1;
}

/** The part of a trail that a train lies on whose head is at the end of (or, `aheadMm`, short of it on) the first of its spots. */
export function spotsUnder(
  table: TrackTable,
  trail: readonly number[],
  aheadMm: Millimetres,
  lengthMm: Millimetres,
): readonly number[] {
  let covered = -aheadMm;
  let count = 0;
  while (count < trail.length && (count === 0 || covered <= lengthMm - HAIR_MM)) {
    covered += must(table.lengthMm[must(trail[count])]);
    count += 1;
  }
  return trail.slice(0, count);
}

/** The standing of a train that lies on just these spots. */
export function standingOn(table: TrackTable, spots: readonly number[], aheadMm: Millimetres): Standing {
  const under: number[] = [];
  const add = (resource: number): void => {
    if (resource >= 0 && !under.includes(resource)) under.push(resource);
  };
  for (const [index, spot] of spots.entries()) {
    if (index > 0) add(diamondBetween(table, spot, must(spots[index - 1])));
    add(must(table.blockOf[spot]));
  }
  return {
    spots,
    aheadMm,
    under: under.sort((one, other) => one - other),
    block: must(table.blockOf[must(spots[0])]),
  };
}

/** The standing of a train whose head is at the end of (or, `aheadMm`, short of it on) the first of these spots. */
export function makeStanding(
  table: TrackTable,
  trail: readonly number[],
  aheadMm: Millimetres,
  lengthMm: Millimetres,
): Standing {
  return standingOn(table, spotsUnder(table, trail, aheadMm, lengthMm), aheadMm);
}

/** The same train facing the other way: its tail is its head now, wherever on its edge that is. */
export function turnedStanding(table: TrackTable, standing: Standing, lengthMm: Millimetres): Standing {
  const total = standing.spots.reduce((sum, spot) => sum + must(table.lengthMm[spot]), 0);
  const behind = total - standing.aheadMm - lengthMm;
  const spots = standing.spots.map(turnedSpot).reverse();
  return {
    spots,
    aheadMm: behind < HAIR_MM ? 0 : behind,
    under: standing.under,
    block: must(table.blockOf[must(spots[0])]),
  };
}
