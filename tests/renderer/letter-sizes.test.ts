import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CAP_HEIGHT_RATIO, letterMm, letterSizes, pxPerMm } from '../../renderer/theme/letter-sizes.ts';
import { wordsPx } from '../../renderer/theme/letter-widths.ts';

/** NUREG-0700 rev. 2, guideline 1.3.1-4: character height in mm by distance in mm and minutes of arc, as computed in published-values section 9. */
const NUREG: readonly [number, number, number][] = [
  [600, 16, 2.79],
  [600, 20, 3.49],
  [600, 22, 3.84],
  [600, 24, 4.19],
  [1000, 16, 4.65],
  [1000, 20, 5.82],
  [1000, 24, 6.98],
  [2000, 16, 9.31],
  [2000, 20, 11.64],
  [2000, 24, 13.96],
];

const USUAL = { deskMm: 700, farMm: 2000 };

describe('the height of letters', () => {
  it.each(NUREG)('read from %d mm under %d minutes of arc is %d mm', (distance, arcmin, height) => {
    expect(letterMm(arcmin, distance)).toBeCloseTo(height, 2);
  });

  it('is 58, 20 and 16 px on 24 inches of 1920x1080, read from 2 m and 700 mm', () => {
    expect(letterSizes({ ...USUAL, screenInches: 24, screenPx: [1920, 1080] })).toEqual({
      far: 58,
      desk: 20,
      fine: 16,
    });
  });

  it('is smaller in pixels where the pixels are larger', () => {
    expect(letterSizes({ ...USUAL, screenInches: 24, screenPx: [1280, 800] })).toEqual({
      far: 40,
      desk: 14,
      fine: 12,
    });
  });

  it('counts 3.61 pixels in a millimetre of 24 inches of 1920x1080', () => {
    expect(pxPerMm({ screenInches: 24, screenPx: [1920, 1080] })).toBeCloseTo(1920 / 531.3, 2);
  });

  it('never comes out too small, nor two pixels too large', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 120, noNaN: true }),
        fc.integer({ min: 640, max: 7680 }),
        fc.double({ min: 500, max: 10_000, noNaN: true }),
        (screenInches, width, farMm) => {
          const viewing = {
            screenInches,
            screenPx: [width, Math.round(width * 0.5625)] as const,
            deskMm: 700,
            farMm,
          };
          const needed = (letterMm(20, farMm) * pxPerMm(viewing)) / CAP_HEIGHT_RATIO;
          const { far } = letterSizes(viewing);
          expect(far).toBeGreaterThanOrEqual(needed - 1e-6);
          expect(far).toBeLessThan(needed + 2);
        },
      ),
    );
  });
});

describe('the width of words', () => {
  it('is the sum of the letters, each figure as wide as the others', () => {
    expect(wordsPx('1111', 20)).toBeCloseTo(52, 9);
    expect(new Set([...'0123456789'].map((figure) => wordsPx(figure, 1000))).size).toBe(1);
    expect(wordsPx('ij', 10)).toBeCloseTo(6, 9);
  });

  it('allows for letters that it does not know', () => {
    expect(wordsPx('Ñ', 10)).toBeCloseTo(8, 9);
  });
});
