/** Where the marks of findings stand on the drawing, in pixels at one scale about the sheet's origin. */
import type { Point } from '../../../shared-model/polyline.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { Finding } from '../../../shared-model/refusal.ts';
import { placeOf } from './finding-places.ts';

/** Half the width and height of a mark. */
export const MARK_HALF_PX = 14;
/** Pixels between the marks of findings at one spot. */
const ASIDE_PX = 30;
/** How far above its place a mark is. */
const ABOVE_PX = 22;

export interface MarkSpot {
  readonly finding: Finding;
  /** The number that it has in the list. */
  readonly number: number;
  /** Its middle. */
  readonly at: Point;
}

/**
 * @param scale pixels to a square
 * @param all warnings too; else errors alone
 */
export function markSpots(
  railroad: Railroad,
  findings: readonly Finding[],
  scale: number,
  all: boolean,
): readonly MarkSpot[] {
  const taken = new Map<string, number>();
  return findings.flatMap((finding, index) => {
    if (finding.severity === 'info' || (finding.severity === 'warning' && !all)) return [];
    const place = placeOf(railroad, finding);
    if (place === null) return [];
    const spot = place.join(' ');
    const before = taken.get(spot) ?? 0;
    taken.set(spot, before + 1);
    const at: Point = [place[0] * scale + before * ASIDE_PX, place[1] * scale - ABOVE_PX];
    return [{ finding, number: index + 1, at }];
  });
}
