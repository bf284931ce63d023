/** How tall the rows of the time-distance chart are: to scale, so that the slope of a line is the speed of its train, or all alike. */
import type { Millimetres } from '../../units.ts';

export interface RowHeights {
  /** Where each row begins, and after the last one where it ends; in the unit of `least`. */
  readonly tops: readonly number[];
  /** Rows that are drawn taller than their track is to scale, so that they can be read. */
  readonly stretched: readonly boolean[];
  /** A place of the chart as a row and a part of it: 2.5 is half way down the third row. */
  readonly yOf: (row: number) => number;
}

function placed(heights: readonly number[], stretched: readonly boolean[]): RowHeights {
  const tops = [0];
  for (const height of heights) tops.push((tops.at(-1) ?? 0) + height);
  const yOf = (row: number): number => {
    const whole = Math.min(heights.length, Math.max(0, Math.floor(row)));
    return (tops[whole] ?? 0) + (row - whole) * (heights[whole] ?? 0);
  };
  return { tops, stretched, yOf };
}

/** Rows that are all as tall as each other. */
export function evenRows(rows: number, height: number): RowHeights {
  const all = Array.from({ length: rows });
  return placed(
    all.map(() => height),
    all.map(() => false),
  );
}

/** Of all rows so many may be drawn taller than to scale, the shortest ones; the others are exact. */
const STRETCHED_SHARE = 0.25;

/**
 * Rows to scale: each as tall as its track is long, but for the shortest ones, which have the least height.
 *
 * @param lengthsMm the track of each row
 * @param least the least height in which a row can be read
 * @param room what the rows should fill together where they need not be taller
 */
export function rowsToScale(lengthsMm: readonly Millimetres[], least: number, room: number): RowHeights {
  const heightsFor = (perMm: number): readonly number[] =>
    lengthsMm.map((lengthMm) => Math.max(least, lengthMm * perMm));
  const sum = (perMm: number): number => heightsFor(perMm).reduce((whole, height) => whole + height, 0);
  const sorted = [...lengthsMm].sort((one, other) => one - other);
  const quarter = sorted[Math.floor(sorted.length * STRETCHED_SHARE)] ?? 1;
  const readable = least / Math.max(1, quarter);
  const track = lengthsMm.reduce((whole, lengthMm) => whole + lengthMm, 0);
  // Where there is room left, every row grows; that the short ones are at their least height is allowed for by halving.
  let [low, high] = [readable, Math.max(readable, room / Math.max(1, track))];
  for (let round = 0; round < 30; round += 1) {
    const middle = (low + high) / 2;
    if (sum(middle) > Math.max(room, sum(readable))) high = middle;
    else low = middle;
  }
  return placed(
    heightsFor(low),
    lengthsMm.map((lengthMm) => lengthMm * low < least - 1e-9),
  );
}
