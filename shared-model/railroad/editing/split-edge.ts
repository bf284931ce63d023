/** An edge cut in two at a spot, with a gap or a plain joint between the parts; and two edges made one again. */
import type { EdgeId, NodeId } from '../../ids.ts';
import { distanceToLine, lineLength, pointAlong } from '../../polyline.ts';
import type { TrackEdge, TrackNode } from '../document.ts';
import { type DraftDocument, freshId } from './draft.ts';
import { prefixOf } from './fit-nodes.ts';
import { keepOpenEnds, withNode } from './open-ends.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { nodeNaming } from './rename-id.ts';
import { lineFromNode, lineOf, otherEnd, samePoint, trackOf } from './track.ts';

/** How a node names an edge under another name. */
const naming =
  (from: EdgeId, to: EdgeId) =>
  (node: TrackNode): TrackNode =>
    nodeNaming(node, (id) => ((id as string) === from ? (to as string as typeof id) : id));

const rounded = (value: number): number => Math.round(value * 100) / 100;

/** A bend that is nearer than this to the straight line needs not be drawn. */
const STRAIGHT_SQUARES = 0.02;

export interface Split {
  readonly draft: DraftDocument;
  readonly node: NodeId;
  /** The parts at the first and at the second end of the edge. */
  readonly parts: readonly [EdgeId, EdgeId];
}

/** Length of the first part, in whole millimetres where both parts can have some. */
function firstLength(length: number, share: number): number {
  const whole = Math.round(length * share);
  return whole > 0 && whole < length ? whole : length * share;
}

/**
 * Cuts an edge in two. The longer part keeps the id, the name and the feeders; places and legs go with the part that they are at.
 *
 * @param share how far along the drawn edge, from its first node, strictly between 0 and 1; its length is shared likewise
 */
export function splitEdge(
  draft: DraftDocument,
  edge: TrackEdge,
  share: number,
  kind: 'gap' | 'joint',
): Split {
  const line = lineOf(trackOf(draft), edge);
  const cutAt = lineLength(line) * share;
  const [x, y] = pointAlong(line, cutAt).at;
  const node = freshId(draft, prefixOf(kind)) as NodeId;
  const fresh = freshId(draft, 'e') as EdgeId;
  const firstKeeps = share >= 0.5;
  const parts: [EdgeId, EdgeId] = firstKeeps ? [edge.id, fresh] : [fresh, edge.id];
  const passed = (index: number) => lineLength(line.slice(0, index + 2));
  const bends = (edge.shape ?? []).map((bend, index) => ({ bend, along: passed(index) }));
  const shapeOf = (inside: (along: number) => boolean) => {
    const shape = bends.filter(({ along }) => inside(along)).map(({ bend }) => bend);
    return shape.length === 0 ? {} : { shape };
  };
  const length = firstLength(edge.length, share);
  const named = edge.name === undefined ? {} : { name: edge.name };
  const [a, b] = edge.between;
  const first: TrackEdge = {
    id: parts[0],
    between: [a, node],
    length,
    ...(firstKeeps ? named : {}),
    ...shapeOf((along) => along < cutAt - 1e-6),
  };
  const second: TrackEdge = {
    id: parts[1],
    between: [node, b],
    length: edge.length - length,
    ...(firstKeeps ? {} : named),
    ...shapeOf((along) => along > cutAt + 1e-6),
  };
  const nodes = draft.nodes.map((one) =>
    one.id === a ? naming(edge.id, parts[0])(one) : one.id === b ? naming(edge.id, parts[1])(one) : one,
  );
  const places = draft.places.map((place) => ({
    ...place,
    at: place.at.map((spot) =>
      spot.edge === edge.id ? { ...spot, edge: spot.toward === a ? parts[0] : parts[1] } : spot,
    ),
  }));
  return {
    draft: {
      ...draft,
      nodes: [...nodes, { id: node, kind, at: [rounded(x), rounded(y)] }],
      edges: draft.edges.flatMap((one) => (one.id === edge.id ? [first, second] : [one])),
      places: draft.places.some(({ at }) => at.some((spot) => spot.edge === edge.id)) ? places : draft.places,
    },
    node,
    parts,
  };
}

/**
 * Cuts a gap (or puts a joint) into an edge.
 *
 * @param share as in `splitEdge`; a spot too near an end is moved off it
 */
export function cutEdge(
  draft: DraftDocument,
  id: string,
  share: number,
  kind: 'gap' | 'joint' = 'gap',
): Outcome {
  const edge = draft.edges.find((one) => one.id === id);
  if (edge === undefined) return refused(`there is no edge ${id}`);
  const split = splitEdge(draft, edge, Math.min(0.95, Math.max(0.05, share)), kind);
  return done(keepOpenEnds(draft, split.draft), split.node);
}

/** Makes a joint of a gap or a gap of a joint; of a turnout, crossing or end neither can be made. */
export function setJoin(draft: DraftDocument, id: string, kind: 'gap' | 'joint'): Outcome {
  const node = draft.nodes.find((one) => one.id === id);
  if (node === undefined) return refused(`there is no node ${id}`);
  if (node.kind !== 'gap' && node.kind !== 'joint')
    return refused(
      node.kind === 'end'
        ? `${id} is an end of track: a gap lies between two edges`
        : `the rail cannot be cut in the middle of ${node.kind} ${id}: cut it in an edge beside it`,
    );
  if (node.kind === kind) return done(draft, id);
  return done(
    withNode(draft, id, () => ({ ...node, kind })),
    id,
  );
}

/**
 * Makes one edge of the two that meet at a joint or gap. It keeps the id of the one with a feeder, else of the longer; the feeders of
 * both, the lengths together.
 */
export function mergeAt(draft: DraftDocument, id: string): Outcome {
  const track = trackOf(draft);
  const node = draft.nodes.find((one) => one.id === id);
  const edges = (track.edgesAt.get(id as NodeId) ?? []).flatMap((edge) => track.edges.get(edge) ?? []);
  const [one, other] = edges;
  if (node === undefined || one === undefined || other === undefined || edges.length !== 2)
    return refused(`two edges have to meet at ${id} to be made one`);
  const [from, to] = [otherEnd(one, node.id), otherEnd(other, node.id)];
  if (from === to)
    return refused(`without ${id} the track would lead from ${from} to ${from}: it has to stay`);
  const isFed = (edge: TrackEdge) =>
    draft.blocks.some(({ feeders }) => feeders.some((feeder) => feeder.edge === edge.id));
  const keeps = isFed(one) === isFed(other) ? one.length >= other.length : isFed(one);
  const [kept, gone] = keeps ? [one, other] : [other, one];
  const [keptEnd, goneEnd] = keeps ? [from, to] : [to, from];
  const line = [
    ...lineFromNode(track, kept, keptEnd),
    ...lineFromNode(track, gone, node.id).filter((point, index) => index > 0 || !samePoint(point, node.at)),
  ];
  const bends = line.slice(1, -1).map(([x, y]) => [x, y] as [number, number]);
  const needed = bends.filter(
    (bend, index) => distanceToLine(bend, [line[index] ?? bend, line[index + 2] ?? bend]) > STRAIGHT_SQUARES,
  );
  const forward = kept.between[0] === keptEnd;
  const shape = forward ? needed : [...needed].reverse();
  const { shape: _before, ...plain } = kept;
  const merged: TrackEdge = {
    ...plain,
    between: forward ? [keptEnd, goneEnd] : [goneEnd, keptEnd],
    length: kept.length + gone.length,
    ...(shape.length === 0 ? {} : { shape }),
    ...(kept.name === undefined && gone.name !== undefined ? { name: gone.name } : {}),
  };
  /** A place toward the node that goes looks on to where its track leads now. */
  const facing = (edge: EdgeId, toward: NodeId): NodeId => {
    if (toward !== node.id) return toward;
    return edge === kept.id ? goneEnd : keptEnd;
  };
  const touches = (edge: string) => edge === kept.id || edge === gone.id;
  const after: DraftDocument = {
    ...draft,
    nodes: draft.nodes
      .filter((thing) => thing.id !== node.id)
      .map((thing) => (thing.id === goneEnd ? naming(gone.id, kept.id)(thing) : thing)),
    edges: draft.edges
      .filter((edge) => edge.id !== gone.id)
      .map((edge) => (edge.id === kept.id ? merged : edge)),
    blocks: draft.blocks.map((block) =>
      block.feeders.some((feeder) => feeder.edge === gone.id)
        ? {
            ...block,
            feeders: block.feeders.map((feeder) =>
              feeder.edge === gone.id ? { ...feeder, edge: kept.id } : feeder,
            ),
          }
        : block,
    ),
    places: draft.places.map((place) =>
      place.at.some(({ edge }) => touches(edge))
        ? {
            ...place,
            at: place.at.map((spot) =>
              touches(spot.edge) ? { edge: kept.id, toward: facing(spot.edge, spot.toward) } : spot,
            ),
          }
        : place,
    ),
  };
  return done(keepOpenEnds(draft, after), kept.id);
}
