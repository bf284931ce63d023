import { describe, expect, it } from 'vitest';
import {
  type Ground,
  type LabelWish,
  overlaps,
  placeLabels,
  trackUnder,
} from '../../../renderer/board/label-places.ts';
import type { Point } from '../../../renderer/board/polyline.ts';

const ground: Ground = {
  tracks: [
    [
      [0, 50],
      [200, 50],
    ],
  ],
  clearance: 5,
  taken: [],
  within: { left: 0, top: 0, right: 200, bottom: 100 },
  widthOf: (words) => words.length * 10,
  height: 12,
};

const wish = (key: string, words: readonly string[], spots: readonly Point[], needed = true): LabelWish => ({
  key,
  words,
  needed,
  candidates: () => spots.map((middle, i) => ({ middle, cost: i })),
});

describe('placing names', () => {
  it('takes the best spot that is free of track', () => {
    const [label] = placeLabels(
      [
        wish(
          'a',
          ['name'],
          [
            [100, 50],
            [100, 30],
            [100, 70],
          ],
        ),
      ],
      ground,
    );
    expect(label?.middle).toEqual([100, 30]);
  });

  it('never lets two names overlap', () => {
    const same: readonly Point[] = [
      [100, 30],
      [110, 30],
      [150, 30],
    ];
    const labels = placeLabels([wish('a', ['name'], same), wish('b', ['name'], same)], ground);
    expect(labels.map(({ middle }) => middle)).toEqual([
      [100, 30],
      [150, 30],
    ]);
    const [one, other] = labels.map(({ box }) => box);
    expect(one && other && overlaps(one, other)).toBe(false);
  });

  it('shortens a name that does not fit', () => {
    const [label] = placeLabels([wish('a', ['a very long name indeed', '5'], [[100, 30]])], ground);
    expect(label?.words).toBe('5');
  });

  it('puts a name that is needed over track rather than nowhere, and leaves out one that is not', () => {
    expect(placeLabels([wish('a', ['name'], [[100, 50]])], ground)).toHaveLength(1);
    expect(placeLabels([wish('a', ['name'], [[100, 50]], false)], ground)).toEqual([]);
  });

  it('keeps inside the board', () => {
    expect(
      placeLabels(
        [
          wish(
            'a',
            ['name'],
            [
              [5, 30],
              [198, 30],
            ],
          ),
        ],
        ground,
      ),
    ).toEqual([]);
  });
});

describe('track under a box', () => {
  it('is as long as the part of the line inside', () => {
    expect(trackUnder({ left: 20, top: 40, right: 50, bottom: 60 }, ground.tracks)).toBeCloseTo(30, 9);
    expect(trackUnder({ left: 20, top: 60, right: 50, bottom: 70 }, ground.tracks)).toBe(0);
  });

  it('counts slanting track too', () => {
    const slanting = [[[0, 0] as Point, [100, 100] as Point]];
    expect(trackUnder({ left: 0, top: 0, right: 50, bottom: 50 }, slanting)).toBeCloseTo(50 * Math.SQRT2, 9);
    expect(trackUnder({ left: 60, top: 0, right: 90, bottom: 50 }, slanting)).toBe(0);
  });
});
