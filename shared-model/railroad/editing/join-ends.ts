/** Two ends of track made one spot of the railroad that is drawn at both: a long line becomes a loop on a straight board. */
import type { NodeId } from '../../ids.ts';
import type { TrackEdge } from '../document.ts';
import type { DraftDocument } from './draft.ts';
import { fitNodes } from './fit-nodes.ts';
import { withNode } from './open-ends.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { splitEdge } from './split-edge.ts';
import { samePoint, trackOf } from './track.ts';

/** A draft in which one node stands wherever another one stood, which is gone. */
export function standingFor(draft: DraftDocument, keep: NodeId, gone: NodeId): DraftDocument {
  const as = (id: NodeId): NodeId => (id === gone ? keep : id);
  const ends = ({ between: [one, other] }: TrackEdge): [NodeId, NodeId] => [as(one), as(other)];
  return {
    ...draft,
    nodes: draft.nodes.filter(({ id }) => id !== gone),
    edges: draft.edges.map((edge) => (edge.between.includes(gone) ? { ...edge, between: ends(edge) } : edge)),
    places: draft.places.map((place) => ({
      ...place,
      at: place.at.map((spot) => (spot.toward === gone ? { ...spot, toward: keep } : spot)),
    })),
  };
}

/**
 * Joins two ends of track into one joint, drawn at both spots. A single edge between them gets a joint in its middle, since no edge
 * can begin and end at one node.
 *
 * @returns about the joint; refused unless both are ends of track
 */
export function joinEnds(draft: DraftDocument, one: string, other: string): Outcome {
  const [a, b] = [one, other].map((id) => draft.nodes.find((node) => node.id === id && node.kind === 'end'));
  if (a === undefined || b === undefined || a === b) return refused('two ends of track are wanted');
  const before = trackOf(draft);
  const [edgeA, edgeB] = [before.edgesAt.get(a.id)?.[0], before.edgesAt.get(b.id)?.[0]];
  const shared = edgeA === edgeB && edgeA !== undefined ? before.edges.get(edgeA) : undefined;
  const parted = shared === undefined ? draft : splitEdge(draft, shared, 0.5, 'joint').draft;
  const atA = trackOf(parted).edgesAt.get(a.id)?.[0];
  const joined = standingFor(parted, a.id, b.id);
  // The second of its edges in the file's order is drawn at its second spot.
  const isFirst = trackOf(joined).edgesAt.get(a.id)?.[0] === atA;
  const [at, alsoAt] = isFirst ? [a.at, b.at] : [b.at, a.at];
  const opened = withNode(joined, a.id, (node) =>
    samePoint(at, alsoAt) ? { ...node, at } : { ...node, at, alsoAt },
  );
  const after = fitNodes(opened, [a.id]);
  const joint = after.nodes.find((node) => !draft.nodes.includes(node) && samePoint(node.at, at));
  return done(after, joint?.id ?? a.id);
}
