/** Lines of straight pieces, in whatever unit their points are in. */

export type Point = readonly [x: number, y: number];
export type Polyline = readonly Point[];

export const between = ([ax, ay]: Point, [bx, by]: Point, share: number): Point => [
  ax + (bx - ax) * share,
  ay + (by - ay) * share,
];

export const distance = ([ax, ay]: Point, [bx, by]: Point): number => Math.hypot(bx - ax, by - ay);

export function lineLength(line: Polyline): number {
  let sum = 0;
  for (let i = 1; i < line.length; i += 1) sum += distance(line[i - 1] as Point, line[i] as Point);
  return sum;
}

export interface OnLine {
  readonly at: Point;
  /** Direction of the line there, in radians, 0 to the right, growing clockwise (y points down). */
  readonly angle: number;
}

/** The point of a line so far from its start; its ends where the distance lies outside. */
export function pointAlong(line: Polyline, along: number): OnLine {
  let left = Math.max(0, along);
  for (let i = 1; i < line.length; i += 1) {
    const [from, to] = [line[i - 1] as Point, line[i] as Point];
    const length = distance(from, to);
    const angle = Math.atan2(to[1] - from[1], to[0] - from[0]);
    if ((left <= length || i === line.length - 1) && length > 0)
      return { at: between(from, to, Math.min(1, left / length)), angle };
    left -= length;
  }
  return { at: line[0] ?? [0, 0], angle: 0 };
}

/** The part of a line between two distances from its start; empty if nothing is left. */
export function sliceLine(line: Polyline, from: number, to: number): Polyline {
  const [start, end] = [Math.max(0, from), Math.min(lineLength(line), to)];
  if (end <= start) return [];
  const points: Point[] = [pointAlong(line, start).at];
  let passed = 0;
  for (let i = 1; i < line.length; i += 1) {
    passed += distance(line[i - 1] as Point, line[i] as Point);
    if (passed > start && passed < end) points.push(line[i] as Point);
  }
  points.push(pointAlong(line, end).at);
  return points;
}

export interface NearLine {
  /** From the start of the line. */
  readonly along: number;
  readonly distance: number;
}

/** The spot of a line that is nearest to a point. */
export function nearestOnLine(point: Point, line: Polyline): NearLine {
  let best: NearLine = { along: 0, distance: Number.POSITIVE_INFINITY };
  let passed = 0;
  for (let i = 1; i < line.length; i += 1) {
    const [from, to] = [line[i - 1] as Point, line[i] as Point];
    const square = distance(from, to) ** 2;
    const share =
      square === 0
        ? 0
        : ((point[0] - from[0]) * (to[0] - from[0]) + (point[1] - from[1]) * (to[1] - from[1])) / square;
    const inside = Math.min(1, Math.max(0, share));
    const away = distance(point, between(from, to, inside));
    if (away < best.distance) best = { along: passed + inside * Math.sqrt(square), distance: away };
    passed += Math.sqrt(square);
  }
  return best;
}

/** The shortest distance from a point to a line. */
export const distanceToLine = (point: Point, line: Polyline): number => nearestOnLine(point, line).distance;
