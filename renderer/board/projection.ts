/** From the document's units to CSS pixels of the board's zone: fitted, and then zoomed and panned. */
import type { Point, Polyline } from './polyline.ts';
import type { TrackDrawing } from './track-drawing.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** How far the drawing is enlarged (1: it just fits) and moved, in pixels. */
export interface Sight {
  readonly zoom: number;
  readonly pan: Point;
}

export const WHOLE: Sight = { zoom: 1, pan: [0, 0] };
export const MOST_ZOOM = 6;

export interface Projection {
  readonly scale: Point;
  readonly origin: Point;
}

/** A schematic may be stretched along one axis, but only so far that it is still the drawing that its owner knows. */
const MOST_STRETCH = 2.5;

/**
 * The projection that fits a drawing into a zone.
 *
 * @param margin pixels kept free on each side, for strokes and letters
 * @param zoom times as large as just fitting
 */
export function fitted({ bounds }: TrackDrawing, zone: Size, margin: Point, zoom: number): Projection {
  const [width, height] = [
    Math.max(1e-6, bounds.right - bounds.left),
    Math.max(1e-6, bounds.bottom - bounds.top),
  ];
  const room: Point = [Math.max(1, zone.width - 2 * margin[0]), Math.max(1, zone.height - 2 * margin[1])];
  const [fitX, fitY] = [room[0] / width, room[1] / height];
  const scale: Point = [
    Math.min(fitX, fitY * MOST_STRETCH) * zoom,
    Math.min(fitY, fitX * MOST_STRETCH) * zoom,
  ];
  const middle: Point = [(bounds.left + bounds.right) / 2, (bounds.top + bounds.bottom) / 2];
  return {
    scale,
    origin: [zone.width / 2 - middle[0] * scale[0], zone.height / 2 - middle[1] * scale[1]],
  };
}

export const projected = ({ scale, origin }: Projection, [x, y]: Point): Point => [
  x * scale[0] + origin[0],
  y * scale[1] + origin[1],
];

export const projectedLine = (projection: Projection, line: Polyline): Polyline =>
  line.map((point) => projected(projection, point));

const clamped = (value: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, value));

/** A pan that does not lose the drawing: at zoom 1 none, zoomed at most until its edge is in the middle of the zone. */
function keptPan([x, y]: Point, zone: Size, zoom: number): Point {
  const [mostX, mostY] = [(zone.width * (zoom - 1)) / 2, (zone.height * (zoom - 1)) / 2];
  return [clamped(x, -mostX, mostX), clamped(y, -mostY, mostY)];
}

/** Blocks that are read well side by side on a zoomed board. */
const BLOCKS_IN_SIGHT = 8;

/** How far a railroad of so many blocks may be zoomed: until a few of them fill the zone, however they lie. */
export const mostZoom = (blocks: number): number => Math.max(MOST_ZOOM, blocks / BLOCKS_IN_SIGHT);

/** Zooms by a factor, to `most` times at most, while the spot under a point of the zone stays where it is. */
export function zoomed(sight: Sight, factor: number, about: Point, zone: Size, most = MOST_ZOOM): Sight {
  const zoom = clamped(sight.zoom * factor, 1, most);
  const grown = zoom / sight.zoom;
  const middle: Point = [zone.width / 2, zone.height / 2];
  const pan: Point = [
    (about[0] - middle[0]) * (1 - grown) + sight.pan[0] * grown,
    (about[1] - middle[1]) * (1 - grown) + sight.pan[1] * grown,
  ];
  return { zoom, pan: keptPan(pan, zone, zoom) };
}

export function panned(sight: Sight, [dx, dy]: Point, zone: Size): Sight {
  return { zoom: sight.zoom, pan: keptPan([sight.pan[0] + dx, sight.pan[1] + dy], zone, sight.zoom) };
}

/** Share of the zone, on each side, into which a followed point may not come before the drawing is panned. */
const FOLLOW_BORDER = 0.15;

/**
 * Pans so far that a point is well inside the zone.
 *
 * @param at the point in pixels of the drawing as fitted and zoomed, not yet panned
 * @returns the same sight if it is inside already
 */
export function following(sight: Sight, at: Point, zone: Size): Sight {
  const [x, y] = [at[0] + sight.pan[0], at[1] + sight.pan[1]];
  const inside = (value: number, size: number) =>
    value > size * FOLLOW_BORDER && value < size * (1 - FOLLOW_BORDER);
  if (sight.zoom === 1 || (inside(x, zone.width) && inside(y, zone.height))) return sight;
  return panned(sight, [zone.width / 2 - x, zone.height / 2 - y], zone);
}
