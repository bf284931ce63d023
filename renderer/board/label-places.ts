/** Finds a free spot for each name on the board: beside its own track, over no other track and no other name. */

import { between, type Point, type Polyline } from '../../shared-model/polyline.ts';
import { type Box, type BoxGrid, boxGrid } from './box-grid.ts';

export type { Box } from './box-grid.ts';

/** A spot where a name may go: the middle of its box. `cost` says how much worse it is than the best, in pixels. */
export interface Candidate {
  readonly middle: Point;
  readonly cost: number;
}

export interface LabelSize {
  readonly width: number;
  readonly height: number;
}

export interface LabelWish {
  readonly key: string;
  /** The words to try, the best first; the last is short. */
  readonly words: readonly string[];
  readonly candidates: (size: LabelSize) => readonly Candidate[];
  /** Where the name stood before, while nothing about it has changed: it stays there while that is free. Null: it found no spot, and is not looked for again. */
  readonly before?: Point | null;
  /** The room that some words take, where their letters are not those of the ground. */
  readonly sizeOf?: (words: string) => LabelSize;
  /** False: rather no name than one over track. */
  readonly needed: boolean;
  /** Where no spot is free, it goes rather onto its own track than onto another's, where it would be read as that one's name. */
  readonly own?: { readonly tracks: readonly Polyline[]; readonly candidates: LabelWish['candidates'] };
}

export interface PlacedLabel {
  readonly key: string;
  readonly words: string;
  readonly middle: Point;
  readonly box: Box;
}

export const boxAround = ([x, y]: Point, width: number, height: number): Box => ({
  left: x - width / 2,
  top: y - height / 2,
  right: x + width / 2,
  bottom: y + height / 2,
});

export const overlaps = (one: Box, other: Box): boolean =>
  one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;

const contains = (outer: Box, inner: Box): boolean =>
  inner.left >= outer.left &&
  inner.right <= outer.right &&
  inner.top >= outer.top &&
  inner.bottom <= outer.bottom;

/** The share of a straight piece, 0 to 1, that lies in a box (Liang and Barsky's clipping). Without lists: it is asked a hundred thousand times for a large drawing. */
function shareInBox([ax, ay]: Point, [bx, by]: Point, { left, top, right, bottom }: Box): number {
  let from = 0;
  let to = 1;
  const dx = bx - ax;
  const dy = by - ay;
  if (dx === 0) {
    if (ax <= left || ax >= right) return 0;
  } else {
    from = Math.max(from, Math.min((left - ax) / dx, (right - ax) / dx));
    to = Math.min(to, Math.max((left - ax) / dx, (right - ax) / dx));
  }
  if (dy === 0) {
    if (ay <= top || ay >= bottom) return 0;
  } else {
    from = Math.max(from, Math.min((top - ay) / dy, (bottom - ay) / dy));
    to = Math.min(to, Math.max((top - ay) / dy, (bottom - ay) / dy));
  }
  return Math.max(0, to - from);
}

/** Pixels of track that would lie under a box. */
export function trackUnder(box: Box, tracks: readonly Polyline[]): number {
  let sum = 0;
  for (const line of tracks)
    for (let i = 1; i < line.length; i += 1) {
      const [a, b] = [line[i - 1] as Point, line[i] as Point];
      sum += shareInBox(a, b, box) * Math.hypot(b[0] - a[0], b[1] - a[1]);
    }
  return sum;
}

export interface Ground {
  readonly tracks: readonly Polyline[];
  /** Half the width of what may be drawn on a track, in pixels: names keep that far away. */
  readonly clearance: number;
  /** Boxes that are taken already. */
  readonly taken: readonly Box[];
  /** The names must lie in here. */
  readonly within: Box;
  readonly widthOf: (words: string) => number;
  readonly height: number;
}

/** How many pixels of detour one pixel of covered track is worth. */
const TRACK_WEIGHT = 8;
const OWN_TRACK_WEIGHT = 1;

/** What names keep off, by where it is: straight pieces of track, and boxes that are taken. */
interface Near {
  readonly tracks: BoxGrid<Polyline>;
  readonly taken: BoxGrid<Box>;
}

/** The longest piece of track that is looked at as one. */
const PIECE_PX = 96;

const boxOf = ([ax, ay]: Point, [bx, by]: Point): Box => ({
  left: Math.min(ax, bx),
  top: Math.min(ay, by),
  right: Math.max(ax, bx),
  bottom: Math.max(ay, by),
});

function nearOf({ tracks, taken }: Pick<Ground, 'tracks' | 'taken'>): Near {
  const near: Near = { tracks: boxGrid(), taken: boxGrid() };
  for (const line of tracks)
    for (let i = 1; i < line.length; i += 1) {
      const [a, b] = [line[i - 1] as Point, line[i] as Point];
      // In short pieces: the box of a long slanting line fills much where the line is not.
      const pieces = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / PIECE_PX));
      for (let piece = 0; piece < pieces; piece += 1) {
        const [from, to] = [between(a, b, piece / pieces), between(a, b, (piece + 1) / pieces)];
        near.tracks.add(boxOf(from, to), [from, to]);
      }
    }
  for (const box of taken) near.taken.add(box, box);
  return near;
}

/**
 * Places names one after the other, those first that are wished first.
 *
 * @returns the names that found a spot; none of them overlaps another or a taken box. A name that is not needed also keeps off the tracks, or is left out.
 */
export function placeLabels(wishes: readonly LabelWish[], ground: Ground): readonly PlacedLabel[] {
  const near = nearOf(ground);
  const placed: PlacedLabel[] = [];
  for (const wish of wishes) {
    const label = bestSpot(wish, ground, near);
    if (label === undefined) continue;
    placed.push(label);
    near.taken.add(label.box, label.box);
  }
  return placed;
}

/** What has to be without track around a name's box. */
function keptOff({ left, top, right, bottom }: Box, { clearance }: Ground): Box {
  return {
    left: left - clearance,
    top: top - clearance + 1,
    right: right + clearance,
    bottom: bottom + clearance - 1,
  };
}

/** Whether a name may stand there at all: within the board, over no other name. */
const isOpen = (box: Box, { within }: Ground, { taken }: Near): boolean =>
  contains(within, box) && !taken.some(box, (other) => overlaps(box, other));

function isFree(box: Box, ground: Ground, near: Near): boolean {
  const kept = keptOff(box, ground);
  return (
    !near.taken.some(box, (other) => overlaps(box, other)) && trackUnder(kept, near.tracks.near(kept)) === 0
  );
}

function bestSpot(wish: LabelWish, ground: Ground, near: Near): PlacedLabel | undefined {
  const [first = ''] = wish.words;
  if (wish.before === null) return undefined;
  if (wish.before !== undefined) {
    const { width, height } = wish.sizeOf?.(first) ?? {
      width: ground.widthOf(first),
      height: ground.height,
    };
    const box = boxAround(wish.before, width, height);
    if (isFree(box, ground, near)) return { key: wish.key, words: first, middle: wish.before, box };
  }
  for (const words of wish.words) {
    const size = wish.sizeOf?.(words) ?? { width: ground.widthOf(words), height: ground.height };
    // The cheapest first: the first free one is the best.
    const candidates = [...wish.candidates(size)].sort((one, other) => one.cost - other.cost);
    for (const { middle } of candidates) {
      const box = boxAround(middle, size.width, size.height);
      if (contains(ground.within, box) && isFree(box, ground, near))
        return { key: wish.key, words, middle, box };
    }
  }
  return wish.needed ? crowdedSpot(wish, ground, near) : undefined;
}

/** The spot that covers the least, where none is free. */
function crowdedSpot(wish: LabelWish, ground: Ground, near: Near): PlacedLabel | undefined {
  let best: { readonly label: PlacedLabel; readonly cost: number } | undefined;
  for (const words of wish.words) {
    const size = wish.sizeOf?.(words) ?? { width: ground.widthOf(words), height: ground.height };
    for (const { middle, cost } of [...wish.candidates(size), ...(wish.own?.candidates(size) ?? [])]) {
      const box = boxAround(middle, size.width, size.height);
      if (!isOpen(box, ground, near)) continue;
      const kept = keptOff(box, ground);
      const own = trackUnder(kept, wish.own?.tracks ?? []);
      const others = trackUnder(kept, near.tracks.near(kept)) - own;
      const covers = cost + TRACK_WEIGHT * others + OWN_TRACK_WEIGHT * own;
      if (best === undefined || covers < best.cost)
        best = { label: { key: wish.key, words, middle, box }, cost: covers };
    }
  }
  return best?.label;
}
