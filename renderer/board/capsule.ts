/** The outlines that lie on a line of track: the long capsule of a train, pointed at its front, and the boxes of a cut. */
import {
  lineLength,
  linePath,
  movedAside,
  type Point,
  type Polyline,
  pointAlong,
  sliceLine,
} from './polyline.ts';

const TAIL_STEPS = 6;

/** Points of the half circle round a tail, from the right side of the line to its left. */
function roundTail(line: Polyline, half: number): Polyline {
  const { at, angle } = pointAlong(line, 0);
  return Array.from({ length: TAIL_STEPS + 1 }, (_, step): Point => {
    const turn = angle + Math.PI / 2 + (Math.PI * step) / TAIL_STEPS;
    return [at[0] + Math.cos(turn) * half, at[1] + Math.sin(turn) * half];
  });
}

/**
 * The outline of a train as the `d` of a closed path.
 *
 * @param line from the tail to the head
 * @param half half its thickness
 * @param pointed false for a piece that does not carry the head
 */
export function capsulePath(line: Polyline, half: number, pointed: boolean): string {
  const length = lineLength(line);
  const inset = Math.min(half, length / 3);
  const body = sliceLine(line, inset, pointed ? length - Math.min(half * 1.3, length / 3) : length - inset);
  const tip = pointAlong(line, length).at;
  const left = movedAside(body, half);
  const right = [...movedAside(body, -half)].reverse();
  const front: Polyline = pointed ? [tip] : [...roundTail([...body].reverse(), half)].slice(1, -1);
  return `${linePath([...left, ...front, ...right, ...roundTail(body, half).slice(1, -1)])}Z`;
}

/** The middle and the direction of the longest straight part of a line, for what is written on it, and how long that part is. */
export function straightest(line: Polyline): {
  readonly at: Point;
  readonly angle: number;
  readonly length: number;
} {
  let best = { at: line[0] ?? ([0, 0] as Point), angle: 0, length: 0 };
  for (let i = 1; i < line.length; i += 1) {
    const piece = line.slice(i - 1, i + 1);
    const length = lineLength(piece);
    if (length > best.length) best = { ...pointAlong(piece, length / 2), length };
  }
  return best;
}

/** A band of even thickness along a line, as the `d` of a closed path. */
export function bandPath(line: Polyline, half: number): string {
  return `${linePath([...movedAside(line, half), ...[...movedAside(line, -half)].reverse()])}Z`;
}

/** Boxes along a line, each as the `d` of a closed path. */
export function boxPaths(line: Polyline, half: number, boxPx: number, gapPx: number): readonly string[] {
  const length = lineLength(line);
  const count = Math.max(1, Math.floor((length + gapPx) / (boxPx + gapPx)));
  const each = (length - gapPx * (count - 1)) / count;
  return Array.from({ length: count }, (_, i) => {
    const piece = sliceLine(line, i * (each + gapPx), i * (each + gapPx) + each);
    return bandPath(piece, half);
  });
}
