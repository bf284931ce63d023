/** Moving and copying what is drawn. */
import type { EdgeId, NodeId } from '../../ids.ts';
import { distance, type Point } from '../../polyline.ts';
import type { TrackEdge, TrackNode } from '../document.ts';
import { type DraftDocument, freshIds, idsOf } from './draft.ts';
import { thingAtSpot } from './draw-edge.ts';
import { fitNodes, MOST_EDGES, prefixOf } from './fit-nodes.ts';
import { standingFor } from './join-ends.ts';
import { endsOf } from './open-ends.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { nodeNaming } from './rename-id.ts';
import { splitEdge } from './split-edge.ts';
import { otherEnd, samePoint, trackOf } from './track.ts';

const shifted = ([x, y]: Point, [dx, dy]: Point): [number, number] => [x + dx, y + dy];

/** The nodes that move with a selection: those in it, and the ends of its edges. */
const movingNodes = (draft: DraftDocument, ids: ReadonlySet<string>): ReadonlySet<NodeId> =>
  new Set([...draft.nodes.filter(({ id }) => ids.has(id)).map(({ id }) => id), ...endsOf(draft, ids)]);

/**
 * Moves nodes, and edges with their ends and bends. Nothing joins yet (see `joinMet`), so that it can be moved over other track.
 *
 * @param by in squares of the sheet
 */
export function moveTrack(draft: DraftDocument, ids: ReadonlySet<string>, by: Point): DraftDocument {
  const moving = movingNodes(draft, ids);
  const moves = (edge: TrackEdge) => ids.has(edge.id) || edge.between.every((node) => moving.has(node));
  return {
    ...draft,
    nodes: draft.nodes.map((node) => {
      if (!moving.has(node.id)) return node;
      const at = shifted(node.at, by);
      return node.alsoAt === undefined ? { ...node, at } : { ...node, at, alsoAt: shifted(node.alsoAt, by) };
    }),
    edges: draft.edges.map((edge) =>
      edge.shape !== undefined && moves(edge)
        ? { ...edge, shape: edge.shape.map((point) => shifted(point, by)) }
        : edge,
    ),
  };
}

/** Makes one node of two; the second goes. Null if they cannot be one. */
function joined(draft: DraftDocument, keep: TrackNode, gone: TrackNode): DraftDocument | null {
  const { edgesAt, edges } = trackOf(draft);
  const [stay, come] = [edgesAt.get(keep.id) ?? [], edgesAt.get(gone.id) ?? []];
  const cut = keep.kind === 'gap' || gone.kind === 'gap';
  const opened = keep.alsoAt !== undefined || gone.alsoAt !== undefined;
  const between = come.some((id) => {
    const edge = edges.get(id);
    return edge !== undefined && otherEnd(edge, gone.id) === keep.id;
  });
  if (cut || opened || between || stay.length + come.length > MOST_EDGES) return null;
  return fitNodes(standingFor(draft, keep.id, gone.id), [keep.id]);
}

/**
 * Joins what was moved onto other track: a node with a node at the same spot, an end of track with an edge that runs there.
 *
 * @param ids what was moved
 * @returns the draft, the same one where nothing meets; refused where nodes meet that cannot be one
 */
export function joinMet(draft: DraftDocument, ids: ReadonlySet<string>): Outcome {
  let after = draft;
  for (const id of movingNodes(draft, ids)) {
    const node = after.nodes.find((one) => one.id === id);
    if (node === undefined) continue;
    const met = after.nodes.find((one) => one.id !== id && samePoint(one.at, node.at));
    if (met !== undefined) {
      const one = joined(after, met, node);
      if (one === null)
        return refused(`${id} and ${met.id} lie on one spot but cannot be one node: move one of them off it`);
      after = one;
      continue;
    }
    const others = { ...after, edges: after.edges.filter((edge) => !edge.between.includes(id)) };
    const there =
      node.kind === 'end' ? thingAtSpot({ ...others, nodes: [] }, node.at, 0.02, trackOf(after)) : null;
    const edge = there?.is === 'edge' ? others.edges.find((one) => one.id === there.edge) : undefined;
    if (there?.is !== 'edge' || edge === undefined || there.share < 0.01 || there.share > 0.99) continue;
    const split = splitEdge(after, edge, there.share, 'joint');
    const put = split.draft.nodes.find((one) => one.id === split.node);
    const one = put === undefined ? null : joined(split.draft, put, node);
    if (one !== null) after = one;
  }
  return done(after);
}

/**
 * Copies edges with their ends, under new ids and without wiring.
 *
 * @param by how far from the original, in squares
 * @returns about the new edges and nodes
 */
export function copyTrack(draft: DraftDocument, ids: ReadonlySet<string>, by: Point): Outcome {
  const edges = draft.edges.filter(({ id }) => ids.has(id));
  if (edges.length === 0) return refused('no edge is selected to copy');
  const ends = endsOf(draft, ids);
  const nodes = draft.nodes.filter(({ id }) => ends.has(id));
  const taken = new Set(idsOf(draft));
  const names = new Map<string, string>();
  const give = (id: string, prefix: string) => {
    const fresh = freshIds(taken, prefix, 1)[0] as string;
    taken.add(fresh);
    names.set(id, fresh);
  };
  for (const { id, kind } of nodes) give(id, prefixOf(kind));
  for (const { id } of edges) give(id, 'e');
  const as = <Id extends string>(id: Id): Id => (names.get(id) ?? id) as Id;
  const newNodes = nodes.map((node) => {
    const { alsoAt, ...copied } = nodeNaming(node, as);
    const also = alsoAt === undefined ? {} : { alsoAt: shifted(alsoAt, by) };
    return { ...copied, ...also, id: as(node.id), at: shifted(node.at, by) } as TrackNode;
  });
  const newEdges = edges.map((edge) => ({
    ...edge,
    id: as(edge.id) as EdgeId,
    between: [as(edge.between[0]), as(edge.between[1])] as [NodeId, NodeId],
    ...(edge.shape === undefined ? {} : { shape: edge.shape.map((point) => shifted(point, by)) }),
  }));
  const copied = { ...draft, nodes: [...draft.nodes, ...newNodes], edges: [...draft.edges, ...newEdges] };
  const fresh = newNodes.map(({ id }) => id);
  const after = fitNodes(copied, fresh);
  return done(
    after,
    ...newEdges.map(({ id }) => id),
    ...fresh.filter((id) => after.nodes.some((n) => n.id === id)),
  );
}

/** The nodes that lie in a rectangle of the sheet, and the edges of which both ends do. */
export function inRectangle(draft: DraftDocument, one: Point, other: Point): readonly string[] {
  const [left, right] = [Math.min(one[0], other[0]), Math.max(one[0], other[0])];
  const [top, bottom] = [Math.min(one[1], other[1]), Math.max(one[1], other[1])];
  const inside = ({ at: [x, y] }: TrackNode) => x >= left && x <= right && y >= top && y <= bottom;
  const nodes = new Set(draft.nodes.filter(inside).map(({ id }) => id));
  const edges = draft.edges.filter(({ between }) => between.every((node) => nodes.has(node)));
  return [...nodes, ...edges.map(({ id }) => id)];
}

/** How long a drawn line is, in squares. */
export const squaresOf = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, point, index) => sum + distance(points[index] as Point, point), 0);
