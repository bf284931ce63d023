/** Which spots each kind of name on the board would like, and how much. */
import type { EdgeId, NodeId } from '../../shared-model/ids.ts';
import { blockMarks } from '../../shared-model/railroad/block-marks.ts';
import type { Block, Place } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { blockTitle } from '../../shared-model/railroad/where-words.ts';
import type { Chain } from './block-chains.ts';
import type { BoardSizes } from './board-sizes.ts';
import type { Candidate, LabelSize, LabelWish } from './label-places.ts';
import { distance, lineLength, type Point, type Polyline } from './polyline.ts';
import { lineFrom } from './track-drawing.ts';

/** Shares of a straight piece at which a name may stand, the middle first. */
const SHARES = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9] as const;
/** Below the track is as good as above, but not better. */
const BELOW_COST = 4;
const SHORTER_PIECE_COST = 0.6;

interface Piece {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}

function straightPieces(lines: readonly Polyline[]): readonly Piece[] {
  const pieces = lines.flatMap((line) =>
    line.slice(1).map((to, i): Piece => {
      const from = line[i] as Point;
      return { from, to, length: distance(from, to) };
    }),
  );
  const longest = Math.max(0, ...pieces.map(({ length }) => length));
  return pieces.filter(({ length }) => length > longest / 8).sort((a, b) => b.length - a.length);
}

/** Spots on both sides of a piece of track, just clear of it. */
function besidePiece(piece: Piece, size: LabelSize, away: number): readonly Candidate[] {
  const { from, to, length } = piece;
  const [dx, dy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  // The box of a name touches a slanting track with its corner: its half height and half width both count.
  const reach = away + (Math.abs(dx) * size.height + Math.abs(dy) * size.width) / 2;
  return SHARES.flatMap((share) =>
    [1, -1].map((side): Candidate => {
      const at: Point = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
      const middle: Point = [at[0] + dy * reach * side, at[1] - dx * reach * side];
      const below = middle[1] > at[1];
      return { middle, cost: Math.abs(share - 0.5) * length + (below ? BELOW_COST : 0) };
    }),
  );
}

/**
 * Spots on both sides of the straight pieces of some lines, the longest piece and its middle the best.
 *
 * @param away pixels that a name keeps from the middle of the track
 * @param most how many pieces are thought of, the longest
 */
export function besideLines(
  lines: readonly Polyline[],
  away: number,
  most = Number.POSITIVE_INFINITY,
): LabelWish['candidates'] {
  const pieces = straightPieces(lines).slice(0, most);
  const longest = pieces[0]?.length ?? 0;
  return (size) =>
    pieces.flatMap((piece) =>
      besidePiece(piece, size, away).map(({ middle, cost }) => ({
        middle,
        cost: cost + (longest - piece.length) * SHORTER_PIECE_COST,
      })),
    );
}

/** The name of a block stands beside its longest straight track, near the middle. */
export function blockWish(
  railroad: Railroad,
  block: Block,
  chains: readonly Chain[],
  sizes: BoardSizes,
): LabelWish {
  const mark = blockMarks(railroad.document).get(block.id) ?? block.id;
  const tracks = chains.map(({ line }) => line);
  const onTrack = besideLines(tracks, -sizes.line / 2);
  const closeBy = besideLines(tracks, 1);
  return {
    key: block.id,
    words: [blockTitle(mark, block.name), mark],
    needed: true,
    candidates: besideLines(tracks, sizes.capsule / 2 + 1),
    own: { tracks, candidates: (size) => [...closeBy(size), ...onTrack(size)] },
  };
}

/** Key of a place's name, apart from the ids of things. */
export const placeKey = (place: string): string => `place ${place}`;

/** Lines of letters away from the track that a place's name may be. */
const PLACE_TIERS = [0, 1, 2, 3] as const;
const PLACE_STEPS = 16;

/** Spots along one of a place's tracks, from its end inwards and some names' widths farther. */
function alongTrack(line: Polyline, size: LabelSize, sizes: BoardSizes): readonly Candidate[] {
  const [end, inward] = [line[0], line.at(-1)];
  if (end === undefined || inward === undefined) return [];
  const back = Math.sign(inward[0] - end[0]) || 1;
  const reach = lineLength(line) + 3 * size.width;
  return Array.from({ length: PLACE_STEPS + 1 }, (_, step) => (reach * step) / PLACE_STEPS).flatMap((along) =>
    PLACE_TIERS.flatMap((tier) =>
      [-1, 1].map((side): Candidate => {
        const away = sizes.capsule / 2 + 5 + size.height * (tier + 0.5);
        const middle: Point = [end[0] + back * (size.width / 2 - sizes.letter + along), end[1] + side * away];
        return { middle, cost: along / 2 + tier * size.height * 1.5 + (side > 0 ? 0 : 2) };
      }),
    ),
  );
}

/**
 * The name of a place stands at the end of one of its tracks, beside it or farther out.
 *
 * @returns one wish; none where a block of the same name says it already
 */
export function placeWish(
  railroad: Railroad,
  place: Place,
  lines: ReadonlyMap<EdgeId, Polyline>,
  sizes: BoardSizes,
): readonly LabelWish[] {
  const blocks = place.at.map(({ edge }) => railroad.blockOfEdge.get(edge));
  const said = blocks.some((id) => id !== undefined && railroad.blocks.get(id)?.name === place.name);
  if (said || place.at.length === 0) return [];
  return [
    {
      key: placeKey(place.id),
      words: [place.name],
      needed: true,
      candidates: (size) =>
        place.at.flatMap(({ edge, toward }) =>
          alongTrack(lineFrom(railroad, lines, edge, toward), size, sizes),
        ),
    },
  ];
}

const AROUND: readonly Point[] = [
  [0, -1],
  [0, 1],
  [1, -1],
  [-1, -1],
  [1, 1],
  [-1, 1],
  [1, 0],
  [-1, 0],
];

/**
 * Spots on all sides of a mark.
 *
 * @param away pixels from its middle, to the sides and up or down
 */
export const aroundSpot =
  (at: Point, awayX: number, awayY: number): LabelWish['candidates'] =>
  ({ width, height }) =>
    AROUND.map(([x, y], i) => ({
      middle: [at[0] + x * (width / 2 + awayX), at[1] + y * (height / 2 + awayY)],
      cost: i,
    }));

/** The name of a turnout stands close by it, or is left to the words beside the board. */
export const turnoutWish = (id: NodeId, at: Point, sizes: BoardSizes): LabelWish => ({
  key: id,
  words: [id],
  needed: false,
  candidates: aroundSpot(at, sizes.letter * 0.6, sizes.capsule / 2 + 5),
});
