import { describe, expect, it } from 'vitest';
import { contrastRatio, type Hex, lightenedUntil, luminance } from '../../renderer/theme/contrast.ts';

/** Computed from the formula of WCAG 2.2, as listed in published-values section 9. */
const WCAG: readonly [Hex, Hex, number][] = [
  ['#000000', '#ffffff', 21],
  ['#767676', '#ffffff', 4.542],
  ['#777777', '#ffffff', 4.478],
  ['#949494', '#ffffff', 3.033],
  ['#959595', '#ffffff', 2.995],
];

/** Okabe and Ito's palette: contrast on white and on black, as listed in published-values section 9. */
const OKABE_ITO: readonly [string, Hex, number, number][] = [
  ['orange', '#e69f00', 2.25, 9.32],
  ['sky', '#56b4e9', 2.31, 9.1],
  ['bluish green', '#009e73', 3.42, 6.14],
  ['yellow', '#f0e442', 1.32, 15.88],
  ['blue', '#0072b2', 5.19, 4.05],
  ['vermillion', '#d55e00', 3.87, 5.43],
  ['reddish purple', '#cc79a7', 3.06, 6.86],
];

describe('contrast', () => {
  it.each(WCAG)('of %s and %s is that of the formula of WCAG 2.2: %d', (one, other, ratio) => {
    expect(contrastRatio(one, other)).toBeCloseTo(ratio, 3);
    expect(contrastRatio(other, one)).toBe(contrastRatio(one, other));
  });

  it.each(OKABE_ITO)(
    "of Okabe and Ito's %s on white and black is as computed elsewhere",
    (_, hue, white, black) => {
      expect(contrastRatio(hue, '#ffffff')).toBeCloseTo(white, 2);
      expect(contrastRatio(hue, '#000000')).toBeCloseTo(black, 2);
    },
  );

  it('counts from a luminance between black and white', () => {
    expect(luminance('#000000')).toBe(0);
    expect(luminance('#ffffff')).toBeCloseTo(1, 12);
  });

  it('refuses what is not a colour', () => {
    expect(() => luminance('#fff')).toThrow('#rrggbb');
  });
});

describe('lightening a colour until it stands out', () => {
  it('leaves one that stands out already', () => {
    expect(lightenedUntil('#56b4e9', '#000000', 4.5)).toBe('#56b4e9');
  });

  it('goes no farther than it must', () => {
    const lighter = lightenedUntil('#0072b2', '#000000', 4.5);
    expect(contrastRatio(lighter, '#000000')).toBeGreaterThanOrEqual(4.5);
    expect(contrastRatio(lighter, '#000000')).toBeLessThan(4.7);
  });

  it('ends at white where nothing less would do', () => {
    expect(lightenedUntil('#0072b2', '#777777', 21)).toBe('#ffffff');
  });
});
