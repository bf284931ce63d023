/** The track of a draft in pixels at one scale, about the sheet's origin: what is drawn needs no transform of its own then, which browsers pay dearly for by the thousand. */
import type { EdgeId, NodeId } from '../../../shared-model/ids.ts';
import type { Point, Polyline } from '../../../shared-model/polyline.ts';
import { endPoint } from '../../../shared-model/railroad/drawn-track.ts';
import { lineOf } from '../../../shared-model/railroad/editing/track.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { Arm } from './node-marks.tsx';

/** Where a node is drawn, and the edges that leave it there: two spots for one that is drawn twice. */
export interface NodeSpot {
  readonly node: NodeId;
  /** 0, or 1 for the second spot. */
  readonly index: number;
  readonly at: Point;
  readonly arms: readonly Arm[];
}

const scaled = ([x, y]: Point, scale: number): Point => [x * scale, y * scale];

/** Each edge as drawn, from the first to the second of its nodes; none for an edge whose nodes are missing. */
export function pixelLines(railroad: Railroad, scale: number): ReadonlyMap<EdgeId, Polyline> {
  const lines = new Map<EdgeId, Polyline>();
  for (const edge of railroad.document.edges) {
    const line = lineOf(railroad, edge);
    if (line.length > 1)
      lines.set(
        edge.id,
        line.map((point) => scaled(point, scale)),
      );
  }
  return lines;
}

/** The direction in which a line leaves its start, in radians. */
function leaving(line: Polyline): number {
  const [start = [0, 0]] = line;
  const next = line.find(([x, y]) => x !== start[0] || y !== start[1]) ?? start;
  return Math.atan2(next[1] - start[1], next[0] - start[0]);
}

/** @param lines of `pixelLines` at the same scale */
export function nodeSpots(
  railroad: Railroad,
  lines: ReadonlyMap<EdgeId, Polyline>,
  scale: number,
): readonly NodeSpot[] {
  return railroad.document.nodes.flatMap((node) => {
    const [own, second]: [Arm[], Arm[]] = [[], []];
    for (const edge of railroad.edgesAt.get(node.id) ?? []) {
      const line = lines.get(edge);
      if (line === undefined) continue;
      const first = railroad.edges.get(edge)?.between[0] === node.id;
      const arm: Arm = { edge, direction: leaving(first ? line : [...line].reverse()) };
      const isSecond = node.alsoAt !== undefined && endPoint(railroad.edgesAt, node, edge) === node.alsoAt;
      (isSecond ? second : own).push(arm);
    }
    const spot = (index: number, at: Point, arms: readonly Arm[]): NodeSpot => ({
      node: node.id,
      index,
      at: scaled(at, scale),
      arms,
    });
    if (second.length === 0 || node.alsoAt === undefined) return [spot(0, node.at, own)];
    return [...(own.length === 0 ? [] : [spot(0, node.at, own)]), spot(1, node.alsoAt, second)];
  });
}
