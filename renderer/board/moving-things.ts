/** Where what moves is drawn: the pieces of each train, and the names that did not fit on the things themselves. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { type BoardLayout, chainsOf } from './board-layout.ts';
import type { BoardView, TrainView } from './board-view.ts';
import { type Box, type LabelWish, type PlacedLabel, placeLabels } from './label-places.ts';
import { distanceToLine, lineLength, type Point, type Polyline, pointAlong, sliceLine } from './polyline.ts';
import { nameFits, namePx } from './train-capsule.tsx';
import { trainPieces } from './train-stretch.ts';

export interface DrawnTrain {
  readonly view: TrainView;
  readonly pieces: readonly Polyline[];
  readonly placeKnown: boolean;
}

/** A train whose place is not known lies in the middle of the first block that it is in, as long as its name. */
function somewhereIn(layout: BoardLayout, view: TrainView): readonly Polyline[] {
  const lines = chainsOf(layout, view.blocks[0] ?? null).map(({ line }) => line);
  const longest = lines.toSorted((a, b) => lineLength(b) - lineLength(a))[0];
  if (longest === undefined || view.blocks.length === 0) return [];
  const [middle, half] = [lineLength(longest) / 2, (namePx(view, layout.sizes) + layout.sizes.letter) / 2];
  return [sliceLine(longest, middle - half, middle + half)];
}

export function drawnTrains(
  railroad: Railroad,
  layout: BoardLayout,
  trains: BoardView['trains'],
): readonly DrawnTrain[] {
  return trains.map((view) => {
    const least = view.isCut ? layout.sizes.letter * 2 : namePx(view, layout.sizes) + layout.sizes.capsule;
    const placeKnown = view.trail.length > 0;
    return {
      view,
      placeKnown,
      pieces: placeKnown ? trainPieces(railroad, layout.lines, view, least) : somewhereIn(layout, view),
    };
  });
}

/** The badges of a block that are not under, or half under, a train in it. */
export function uncoveredBadges(
  badges: readonly Point[],
  trains: readonly DrawnTrain[],
  { badge, capsule }: BoardLayout['sizes'],
): readonly Point[] {
  const lines = trains.flatMap(({ pieces }) => pieces);
  return badges.filter((spot) => lines.every((line) => distanceToLine(spot, line) > (badge + capsule) / 2));
}

function boxOf(line: Polyline, around: number): Box {
  const [xs, ys] = [line.map(([x]) => x), line.map(([, y]) => y)];
  return {
    left: Math.min(...xs) - around,
    top: Math.min(...ys) - around,
    right: Math.max(...xs) + around,
    bottom: Math.max(...ys) + around,
  };
}

/** Spots round a point, the near ones first, for words that belong to it. */
function around(at: Point, away: number): LabelWish['candidates'] {
  return ({ width, height }) =>
    [1, 1.8, 2.8].flatMap((far, tier) =>
      [0, 0.35, -0.35, 0.7, -0.7].flatMap((aside) =>
        [-1, 1].map((side) => ({
          middle: [at[0] + aside * width, at[1] + side * (away + height * (far - 0.5))] as const,
          cost: tier * 30 + Math.abs(aside) * 20,
        })),
      ),
    );
}

/** The names that stand beside moving things: trains too short for theirs, cuts, and why a gap is barred. */
export function movingNames(
  layout: BoardLayout,
  trains: readonly DrawnTrain[],
  barred: BoardView['barred'],
): ReadonlyMap<string, PlacedLabel> {
  const { ground, sizes } = layout;
  const away = sizes.capsule / 2 + 5;
  const trainWishes = trains.flatMap(({ view, pieces }): readonly LabelWish[] => {
    const line = pieces[0];
    if (line === undefined || (!view.isCut && nameFits(view, pieces, sizes))) return [];
    const at = pointAlong(line, lineLength(line) / 2).at;
    return [{ key: view.id, words: [view.name], needed: true, candidates: around(at, away) }];
  });
  const gapWishes = barred.flatMap(({ id, why }): readonly LabelWish[] => {
    const spot = layout.gaps.find((gap) => gap.id === id);
    if (spot === undefined) return [];
    return [{ key: id, words: [why], needed: true, candidates: around(spot.at, sizes.letter * 0.8 + 5) }];
  });
  const taken = [
    ...ground.taken,
    ...trains.flatMap(({ pieces }) => pieces.map((line) => boxOf(line, sizes.capsule / 2))),
  ];
  return new Map(
    placeLabels([...trainWishes, ...gapWishes], { ...ground, taken }).map((label) => [label.key, label]),
  );
}
