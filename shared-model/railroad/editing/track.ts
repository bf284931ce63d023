/** The track of a draft by id, and how it is drawn. Built anew for each operation: references in a draft may be broken. */
import type { EdgeId, NodeId } from '../../ids.ts';
import type { Point, Polyline } from '../../polyline.ts';
import type { TrackEdge, TrackNode } from '../document.ts';
import { endPoint } from '../drawn-track.ts';
import type { DraftDocument } from './draft.ts';

export interface Track {
  readonly nodes: ReadonlyMap<NodeId, TrackNode>;
  readonly edges: ReadonlyMap<EdgeId, TrackEdge>;
  /** In the file's order. */
  readonly edgesAt: ReadonlyMap<NodeId, readonly EdgeId[]>;
}

export function trackOf({ nodes, edges }: Pick<DraftDocument, 'nodes' | 'edges'>): Track {
  const edgesAt = new Map<NodeId, EdgeId[]>(nodes.map(({ id }) => [id, []]));
  for (const { id, between } of edges) for (const node of between) edgesAt.get(node)?.push(id);
  return {
    nodes: new Map(nodes.map((node) => [node.id, node])),
    edges: new Map(edges.map((edge) => [edge.id, edge])),
    edgesAt,
  };
}

/** The node at the other end of an edge. */
export const otherEnd = ({ between: [a, b] }: TrackEdge, node: NodeId): NodeId => (a === node ? b : a);

/** An edge as it is drawn, from the first to the second of its nodes; empty when a node is missing. */
export function lineOf({ nodes, edgesAt }: Track, edge: TrackEdge): Polyline {
  const [from, to] = edge.between.map((id) => nodes.get(id));
  if (from === undefined || to === undefined) return [];
  return [endPoint(edgesAt, from, edge.id), ...(edge.shape ?? []), endPoint(edgesAt, to, edge.id)];
}

/** An edge as it is drawn, from one of its nodes. */
export function lineFromNode(track: Track, edge: TrackEdge, node: NodeId): Polyline {
  const line = lineOf(track, edge);
  return edge.between[0] === node ? line : [...line].reverse();
}

/** The direction in which an edge leaves a node, in radians. */
export function directionAt(track: Track, edge: TrackEdge, node: NodeId): number {
  const line = lineFromNode(track, edge, node);
  const start = line[0] ?? [0, 0];
  const next = line.find(([x, y]) => x !== start[0] || y !== start[1]) ?? start;
  return Math.atan2(next[1] - start[1], next[0] - start[0]);
}

/** How far the way from one direction to another at a node is from straight on, in radians: 0 straight, π back again. */
export function bendBetween(one: number, other: number): number {
  const turn = Math.abs(one - other) % (2 * Math.PI);
  return Math.abs(Math.PI - turn);
}

export const samePoint = ([ax, ay]: Point, [bx, by]: Point): boolean =>
  Math.abs(ax - bx) < 1e-6 && Math.abs(ay - by) < 1e-6;
