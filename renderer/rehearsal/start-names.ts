/** Which starts have the name of their train beside them, so that no name stands on another one. */
import type { ChartStart } from '../../shared-model/planning/chart/chart-model.ts';

interface Named {
  readonly move: number;
  /** Left of the badge when true, for want of room to its right. */
  readonly isLeft: boolean;
}

/** Half of a badge, and what a name keeps from it. */
const BADGE = 14;

/**
 * @param placeOf where the badge of a start is, in pixels
 * @param wordsOf how wide its name is
 * @param right where the chart ends
 * @param line height of a name
 */
export function namedStarts(
  starts: readonly ChartStart[],
  placeOf: (start: ChartStart) => readonly [x: number, y: number],
  wordsOf: (start: ChartStart) => number,
  right: number,
  line: number,
): ReadonlyMap<number, Named> {
  const taken: { readonly from: number; readonly till: number; readonly y: number }[] = starts.map(
    (start) => {
      const [x, y] = placeOf(start);
      return { from: x - BADGE, till: x + BADGE, y };
    },
  );
  const named = new Map<number, Named>();
  starts.forEach((start, place) => {
    const [x, y] = placeOf(start);
    const isLeft = x + BADGE + wordsOf(start) > right;
    const from = isLeft ? x - BADGE - wordsOf(start) : x + BADGE;
    const till = from + wordsOf(start);
    const isFree = taken.every(
      (other, index) =>
        index === place || Math.abs(other.y - y) >= line || till <= other.from || from >= other.till,
    );
    if (!isFree) return;
    taken.push({ from, till, y });
    named.set(start.move, { move: start.move, isLeft });
  });
  return named;
}
