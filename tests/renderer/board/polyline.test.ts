import { describe, expect, it } from 'vitest';
import { capsulePath } from '../../../renderer/board/capsule.ts';
import {
  distanceToLine,
  lineLength,
  linePath,
  movedAside,
  type Polyline,
  pointAlong,
  roundedLine,
  sliceLine,
} from '../../../renderer/board/polyline.ts';

const corner: Polyline = [
  [0, 0],
  [10, 0],
  [10, 5],
];

describe('a line of straight pieces', () => {
  it('is as long as its pieces together', () => {
    expect(lineLength(corner)).toBe(15);
    expect(lineLength([])).toBe(0);
  });

  it('has a point and a direction at each distance from its start', () => {
    expect(pointAlong(corner, 4)).toEqual({ at: [4, 0], angle: 0 });
    expect(pointAlong(corner, 12)).toEqual({ at: [10, 2], angle: Math.PI / 2 });
    expect(pointAlong(corner, 99).at).toEqual([10, 5]);
    expect(pointAlong(corner, -1).at).toEqual([0, 0]);
  });

  it('is cut to a part of it, corners kept', () => {
    expect(sliceLine(corner, 8, 13)).toEqual([
      [8, 0],
      [10, 0],
      [10, 3],
    ]);
    expect(sliceLine(corner, 8, 8)).toEqual([]);
    expect(sliceLine(corner, -5, 99)).toEqual(corner);
  });

  it('keeps its ends when its corners are rounded, and comes no nearer the corner than its start and end allow', () => {
    const round = roundedLine(corner, 2);
    expect(round[0]).toEqual([0, 0]);
    expect(round.at(-1)).toEqual([10, 5]);
    expect(lineLength(round)).toBeLessThan(15);
    expect(distanceToLine([10, 0], round)).toBeGreaterThan(0.5);
    expect(distanceToLine([10, 0], round)).toBeLessThan(2);
  });

  it('is moved aside to the left of its direction, mitred at the corner', () => {
    expect(movedAside(corner, 1).map(([x, y]) => [Math.round(x), Math.round(y)])).toEqual([
      [0, -1],
      [11, -1],
      [11, 5],
    ]);
  });

  it('is written as a path with two digits after the point', () => {
    expect(
      linePath([
        [0, 1 / 3],
        [10, 2],
      ]),
    ).toBe('M0 0.33L10 2');
  });
});

describe('the capsule of a train', () => {
  const points = (path: string) =>
    [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
  const level: Polyline = [
    [0, 0],
    [100, 0],
  ];

  it('has its one farthest point at the head, on the track', () => {
    const outline = points(capsulePath(level, 10, true));
    const front = Math.max(...outline.map(([x]) => x));
    expect(outline.filter(([x]) => x === front)).toEqual([[100, 0]]);
  });

  it('is as thick as it is said to be, and no longer than its line', () => {
    const outline = points(capsulePath(level, 10, true));
    expect(Math.max(...outline.map(([, y]) => y))).toBe(10);
    expect(Math.min(...outline.map(([, y]) => y))).toBe(-10);
    expect(Math.min(...outline.map(([x]) => x))).toBeGreaterThanOrEqual(0);
  });

  it('is round at both ends where the head is not on this piece', () => {
    const outline = points(capsulePath(level, 10, false));
    const front = Math.max(...outline.map(([x]) => x));
    expect(front).toBeCloseTo(100, 1);
    expect(outline.some(([x, y]) => x > 95 && Math.abs(y) > 3)).toBe(true);
  });
});
