/** Finds a free spot for each name on the board: beside its own track, over no other track and no other name. */
import type { Point, Polyline } from './polyline.ts';

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A spot where a name may go: the middle of its box. `cost` says how much worse it is than the best, in pixels. */
export interface Candidate {
  readonly middle: Point;
  readonly cost: number;
}

export interface LabelWish {
  readonly key: string;
  /** The words to try, the best first; the last is short. */
  readonly words: readonly string[];
  readonly candidates: (size: { readonly width: number; readonly height: number }) => readonly Candidate[];
  /** False: rather no name than one over track. */
  readonly needed: boolean;
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

/** The share of a straight piece, 0 to 1, that lies in a box (Liang and Barsky's clipping). */
function shareInBox([ax, ay]: Point, [bx, by]: Point, box: Box): number {
  let [from, to] = [0, 1];
  for (const [start, step, least, most] of [
    [ax, bx - ax, box.left, box.right],
    [ay, by - ay, box.top, box.bottom],
  ] as const) {
    if (step === 0) {
      if (start <= least || start >= most) return 0;
      continue;
    }
    const [one, other] = [(least - start) / step, (most - start) / step];
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
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

/**
 * Places names one after the other, those first that are wished first.
 *
 * @returns the names that found a spot; none of them overlaps another or a taken box. A name that is not needed also keeps off the tracks, or is left out.
 */
export function placeLabels(wishes: readonly LabelWish[], ground: Ground): readonly PlacedLabel[] {
  const taken = [...ground.taken];
  const placed: PlacedLabel[] = [];
  for (const wish of wishes) {
    const label = bestSpot(wish, ground, taken);
    if (label === undefined) continue;
    placed.push(label);
    taken.push(label.box);
  }
  return placed;
}

function bestSpot(wish: LabelWish, ground: Ground, taken: readonly Box[]): PlacedLabel | undefined {
  let crowded: { label: PlacedLabel; cost: number } | undefined;
  for (const words of wish.words) {
    const size = { width: ground.widthOf(words), height: ground.height };
    let best: { label: PlacedLabel; cost: number } | undefined;
    for (const { middle, cost } of wish.candidates(size)) {
      const box = boxAround(middle, size.width, size.height);
      if (!contains(ground.within, box) || taken.some((other) => overlaps(box, other))) continue;
      const keptOff = boxAround(
        middle,
        size.width + 2 * ground.clearance,
        size.height + 2 * ground.clearance - 2,
      );
      const label = { key: wish.key, words, middle, box };
      const under = trackUnder(keptOff, ground.tracks);
      if (under === 0 && (best === undefined || cost < best.cost)) best = { label, cost };
      const crowdedCost = cost + TRACK_WEIGHT * under;
      if (crowded === undefined || crowdedCost < crowded.cost) crowded = { label, cost: crowdedCost };
    }
    if (best !== undefined) return best.label;
  }
  return wish.needed ? crowded?.label : undefined;
}
