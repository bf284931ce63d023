/** The track as its owner drew it: a line for each edge, in the document's own units. It does not change while the document does not. */
import type { EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { TrackEdge, TrackNode } from '../../shared-model/railroad/document.ts';
import { endPoint as drawnEnd } from '../../shared-model/railroad/drawn-track.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Point, Polyline } from './polyline.ts';

export interface TrackDrawing {
  /** Each edge from the first to the second of its nodes. */
  readonly lines: ReadonlyMap<EdgeId, Polyline>;
  readonly bounds: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
}

/** Where an edge's end at a node is drawn (see `drawn-track.ts`). */
export const endPoint = (railroad: Railroad, node: TrackNode, edge: TrackEdge): Point =>
  drawnEnd(railroad.edgesAt, node, edge.id);

export function trackDrawing(railroad: Railroad): TrackDrawing {
  const lines = new Map<EdgeId, Polyline>();
  let [left, top, right, bottom] = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ];
  for (const edge of railroad.document.edges) {
    const ends = edge.between.map((id) => railroad.nodes.get(id));
    const [from, to] = ends;
    if (from === undefined || to === undefined) continue;
    const line: Polyline = [
      endPoint(railroad, from, edge),
      ...(edge.shape ?? []),
      endPoint(railroad, to, edge),
    ];
    lines.set(edge.id, line);
    for (const [x, y] of line)
      [left, top, right, bottom] = [
        Math.min(left, x),
        Math.min(top, y),
        Math.max(right, x),
        Math.max(bottom, y),
      ];
  }
  const bounds = lines.size === 0 ? { left: 0, top: 0, right: 1, bottom: 1 } : { left, top, right, bottom };
  return { lines, bounds };
}

/** An edge's line beginning at one of its nodes. */
export function lineFrom(
  railroad: Railroad,
  lines: ReadonlyMap<EdgeId, Polyline>,
  edge: EdgeId,
  node: NodeId,
): Polyline {
  const line = lines.get(edge) ?? [];
  return railroad.edges.get(edge)?.between[0] === node ? line : [...line].reverse();
}
