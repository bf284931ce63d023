/** The outlines of the cabs' badges as SVG paths, so that the board and the strips draw the same ones. */
import type { CabOutline } from './cabs.ts';

const polygon = (corners: readonly (readonly [number, number])[]): string =>
  `M${corners.map(([x, y]) => `${x} ${y}`).join('L')}Z`;

/**
 * Each outline round the point 0 0, about 20 units across, so that the six look equally large.
 * The number is written at `numberY` (triangles and shields carry their weight off the middle).
 */
export const OUTLINE_PATHS: Readonly<
  Record<CabOutline, { readonly path: string; readonly numberY: number }>
> = {
  circle: { path: 'M-10 0A10 10 0 1 1 10 0A10 10 0 1 1 -10 0Z', numberY: 0 },
  square: {
    path: polygon([
      [-9, -9],
      [9, -9],
      [9, 9],
      [-9, 9],
    ]),
    numberY: 0,
  },
  diamond: {
    path: polygon([
      [0, -12.4],
      [12.4, 0],
      [0, 12.4],
      [-12.4, 0],
    ]),
    numberY: 0,
  },
  hexagon: {
    path: polygon([
      [-11.2, 0],
      [-5.6, -9.7],
      [5.6, -9.7],
      [11.2, 0],
      [5.6, 9.7],
      [-5.6, 9.7],
    ]),
    numberY: 0,
  },
  triangle: {
    path: polygon([
      [0, -12.8],
      [13, 9.4],
      [-13, 9.4],
    ]),
    numberY: 2.6,
  },
  shield: { path: 'M-9.4 -9.6H9.4V1.2C9.4 6.6 5 10 0 12.4C-5 10 -9.4 6.6 -9.4 1.2Z', numberY: -0.4 },
};

/** Font size of the number inside an outline, in the same units. */
export const BADGE_NUMBER_SIZE = 13;
