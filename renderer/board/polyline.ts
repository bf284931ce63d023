/** Lines of straight pieces, in whatever unit their points are in. */

export type Point = readonly [x: number, y: number];
export type Polyline = readonly Point[];

const between = ([ax, ay]: Point, [bx, by]: Point, share: number): Point => [
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

export const reversedLine = (line: Polyline): Polyline => [...line].reverse();

const CORNER_STEPS = 5;

/** A line with its corners rounded off, at most `radius` back from each corner. */
export function roundedLine(line: Polyline, radius: number): Polyline {
  if (line.length < 3) return line;
  const points: Point[] = [line[0] as Point];
  for (let i = 1; i < line.length - 1; i += 1) {
    const [before, corner, after] = [line[i - 1], line[i], line[i + 1]] as [Point, Point, Point];
    const [back, ahead] = [distance(before, corner), distance(corner, after)];
    if (back === 0 || ahead === 0) continue;
    const reach = Math.min(radius, back / 2, ahead / 2);
    const [start, end] = [between(corner, before, reach / back), between(corner, after, reach / ahead)];
    for (let step = 0; step <= CORNER_STEPS; step += 1) {
      const share = step / CORNER_STEPS;
      points.push(between(between(start, corner, share), between(corner, end, share), share));
    }
  }
  points.push(line.at(-1) as Point);
  return points;
}

const coordinate = (value: number): string => String(Math.round(value * 100) / 100);

/** A line as the `d` of an SVG path. */
export function linePath(line: Polyline): string {
  return line.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${coordinate(x)} ${coordinate(y)}`).join('');
}

/** The points of a line moved aside, to the left of its direction for a positive distance; corners are mitred, but not far. */
export function movedAside(line: Polyline, aside: number): Polyline {
  const normals = line.slice(1).map((to, i) => {
    const from = line[i] as Point;
    const length = distance(from, to) || 1;
    return [(to[1] - from[1]) / length, -(to[0] - from[0]) / length] as Point;
  });
  return line.map(([x, y], i) => {
    const one = normals[Math.max(0, i - 1)] ?? [0, 0];
    const other = normals[Math.min(normals.length - 1, i)] ?? one;
    const [sumX, sumY] = [one[0] + other[0], one[1] + other[1]];
    const square = Math.max(0.5, (sumX * sumX + sumY * sumY) / 2);
    return [x + (sumX * aside) / square, y + (sumY * aside) / square];
  });
}

/** The shortest distance from a point to a line. */
export function distanceToLine(point: Point, line: Polyline): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 1; i < line.length; i += 1) {
    const [from, to] = [line[i - 1] as Point, line[i] as Point];
    const square = distance(from, to) ** 2;
    const share =
      square === 0
        ? 0
        : ((point[0] - from[0]) * (to[0] - from[0]) + (point[1] - from[1]) * (to[1] - from[1])) / square;
    best = Math.min(best, distance(point, between(from, to, Math.min(1, Math.max(0, share)))));
  }
  return best;
}
