/** Lines of straight pieces as they are drawn: rounded, moved aside, written as paths. What is measured on them is in shared-model/polyline.ts. */
import { between, distance, type Point, type Polyline } from '../../shared-model/polyline.ts';

export {
  distance,
  distanceToLine,
  lineLength,
  type Point,
  type Polyline,
  pointAlong,
  sliceLine,
} from '../../shared-model/polyline.ts';

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
