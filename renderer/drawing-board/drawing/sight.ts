/** How the sheet is looked at: pixels to a square, and where its origin lies. */
import type { Point } from '../../../shared-model/polyline.ts';
import type { DraftDocument } from '../../../shared-model/railroad/editing/draft.ts';

export interface Sight {
  /** Pixels to a square. */
  readonly scale: number;
  /** Where the sheet's origin is drawn, in pixels. */
  readonly origin: Point;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const [LEAST_SCALE, MOST_SCALE] = [4, 160];
/** Pixels to a square on a blank sheet. */
const PLAIN_SCALE = 36;
const MARGIN_PX = 48;

export const toSheet = ({ scale, origin }: Sight, [x, y]: Point): Point => [
  (x - origin[0]) / scale,
  (y - origin[1]) / scale,
];

export const toPixels = ({ scale, origin }: Sight, [x, y]: Point): Point => [
  x * scale + origin[0],
  y * scale + origin[1],
];

/**
 * How a picture that was drawn for one sight is moved and scaled to be seen in another, as CSS about its upper left corner.
 *
 * @returns undefined where nothing is to be done
 */
export function lookFrom(drawn: Sight, shown: Sight): string | undefined {
  if (drawn === shown) return undefined;
  const grown = shown.scale / drawn.scale;
  const [x, y] = [shown.origin[0] - drawn.origin[0] * grown, shown.origin[1] - drawn.origin[1] * grown];
  return `translate(${x}px, ${y}px) scale(${grown})`;
}

/** The sight in which the whole drawing is in view, never larger than on a blank sheet. */
export function wholeSight({ nodes, edges }: Pick<DraftDocument, 'nodes' | 'edges'>, size: Size): Sight {
  const points = [
    ...nodes.flatMap(({ at, alsoAt }) => (alsoAt === undefined ? [at] : [at, alsoAt])),
    ...edges.flatMap(({ shape }) => shape ?? []),
  ];
  if (points.length === 0)
    return { scale: PLAIN_SCALE, origin: [Math.round(size.width / 8), Math.round(size.height / 3)] };
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const room: Point = [
    Math.max(1, size.width - 2 * MARGIN_PX) / Math.max(1, right - left),
    Math.max(1, size.height - 2 * MARGIN_PX) / Math.max(1, bottom - top),
  ];
  const scale = Math.max(LEAST_SCALE, Math.min(PLAIN_SCALE, ...room));
  return {
    scale,
    origin: [size.width / 2 - ((left + right) / 2) * scale, size.height / 2 - ((top + bottom) / 2) * scale],
  };
}

/** Zooms while the spot under a point stays where it is. */
export function zoomedSight(sight: Sight, factor: number, about: Point): Sight {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, sight.scale * factor));
  const grown = scale / sight.scale;
  return {
    scale,
    origin: [
      about[0] - (about[0] - sight.origin[0]) * grown,
      about[1] - (about[1] - sight.origin[1]) * grown,
    ],
  };
}

export const pannedSight = (sight: Sight, [dx, dy]: Point): Sight => ({
  scale: sight.scale,
  origin: [sight.origin[0] + dx, sight.origin[1] + dy],
});

/** Pans so far that a spot of the sheet is well in view; the same sight when it is. */
export function showing(sight: Sight, spot: Point, size: Size): Sight {
  const [x, y] = toPixels(sight, spot);
  const shift = (at: number, room: number) =>
    at < MARGIN_PX ? MARGIN_PX - at + room / 4 : at > room - MARGIN_PX ? room - MARGIN_PX - at - room / 4 : 0;
  const by: Point = [shift(x, size.width), shift(y, size.height)];
  return by[0] === 0 && by[1] === 0 ? sight : pannedSight(sight, by);
}

/** The nearest crossing of the sheet's lines; `fine` the nearest quarter of a square. */
export const snapped = ([x, y]: Point, fine = false): Point =>
  fine ? [Math.round(x * 4) / 4, Math.round(y * 4) / 4] : [Math.round(x), Math.round(y)];
