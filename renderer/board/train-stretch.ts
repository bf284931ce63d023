/** Where on the drawing a train or a cut lies: lines from its head back, as long as it is, or as its name needs. */
import type { EdgeId } from '../../shared-model/ids.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Trail } from '../../shared-model/session/state.ts';
import {
  distance,
  lineLength,
  type Point,
  type Polyline,
  reversedLine,
  roundedLine,
  sliceLine,
} from './polyline.ts';
import { lineFrom } from './track-drawing.ts';

/** Pixels between a head and the gap or end that it stands at. */
const SHORT_OF_GAP_PX = 7;
const CORNER_PX = 14;
/** Lines whose ends are farther apart than this, in pixels, are two pieces: the node between is drawn twice. */
const JUMP_PX = 0.5;

interface Stretch {
  readonly line: Polyline;
  /** Pixels of it that the train covers by its length. */
  readonly covered: number;
}

/** The edges of a trail drawn from the head back, joined where they meet. */
function stretches(
  railroad: Railroad,
  lines: ReadonlyMap<EdgeId, Polyline>,
  trail: Trail,
  lengthMm: number,
): readonly Stretch[] {
  const pieces: { points: Point[]; covered: number }[] = [];
  let leftMm = lengthMm;
  for (const { edge, toward } of trail) {
    const line = lineFrom(railroad, lines, edge, toward);
    const first = line[0];
    if (first === undefined) continue;
    const edgeMm = railroad.edges.get(edge)?.length ?? 1;
    const covered = lineLength(line) * Math.min(1, Math.max(0, leftMm) / edgeMm);
    leftMm -= edgeMm;
    const open = pieces.at(-1);
    const end = open?.points.at(-1);
    if (open !== undefined && end !== undefined && distance(end, first) <= JUMP_PX) {
      open.points.push(...line.slice(1));
      open.covered += covered;
    } else pieces.push({ points: [...line], covered });
  }
  return pieces.map(({ points, covered }) => ({ line: roundedLine(points, CORNER_PX), covered }));
}

/**
 * The drawn pieces of a train, from the tail to the head of each; the piece with the head comes first.
 *
 * The drawing is not to scale, so a train that would be too short for its name is drawn longer, but not beyond its trail.
 *
 * @param lines each edge's line in pixels
 * @param leastPx pixels that its name needs
 * @returns one piece, or more where the track is drawn in two places; none without a trail
 */
export function trainPieces(
  railroad: Railroad,
  lines: ReadonlyMap<EdgeId, Polyline>,
  train: { readonly trail: Trail; readonly length: number },
  leastPx: number,
): readonly Polyline[] {
  return stretches(railroad, lines, train.trail, train.length)
    .map(({ line, covered }, i) => {
      const from = i === 0 ? Math.min(SHORT_OF_GAP_PX, lineLength(line) / 3) : 0;
      const to = i === 0 ? Math.max(covered, from + leastPx) : covered;
      return reversedLine(sliceLine(line, from, to));
    })
    .filter((line) => line.length > 1);
}
