/** Nodes that are drawn twice, so that a loop can be stretched out: opening and closing them, and keeping them as they are drawn. */
import type { NodeId } from '../../ids.ts';
import type { Point } from '../../polyline.ts';
import type { TrackNode } from '../document.ts';
import { endPoint } from '../drawn-track.ts';
import type { DraftDocument } from './draft.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { samePoint, type Track, trackOf } from './track.ts';

/** A draft with one of its nodes changed. */
export const withNode = (
  draft: DraftDocument,
  id: string,
  change: (node: TrackNode) => TrackNode,
): DraftDocument => ({ ...draft, nodes: draft.nodes.map((node) => (node.id === id ? change(node) : node)) });

/**
 * Draws a node twice: the second of its edges ends at another spot. Nothing but the drawing changes.
 *
 * @param alsoAt where the second edge's end is drawn; the node's own spot closes it again
 */
export function openNode(draft: DraftDocument, id: string, alsoAt: Point): Outcome {
  const node = draft.nodes.find((one) => one.id === id);
  if (node === undefined) return refused(`there is no node ${id}`);
  if ((trackOf(draft).edgesAt.get(node.id) ?? []).length !== 2)
    return refused(`only a joint or a gap can be drawn twice, and ${id} is neither`);
  const { alsoAt: _before, ...closed } = node;
  const after = samePoint(alsoAt, node.at)
    ? closed
    : { ...closed, alsoAt: [alsoAt[0], alsoAt[1]] as [number, number] };
  return done(
    withNode(draft, id, () => after as TrackNode),
    id,
  );
}

/** A node whose ends would be drawn elsewhere after an edit, drawn as before it. */
function drawnAsBefore(before: Track, after: Track, node: TrackNode): TrackNode {
  const was = before.nodes.get(node.id);
  if (was?.alsoAt === undefined) return node;
  const edges = after.edgesAt.get(node.id) ?? [];
  const kept = edges.find((edge) => before.edgesAt.get(node.id)?.includes(edge) === true);
  if (kept === undefined) return node;
  const [drawnBefore, drawnAfter] = [
    endPoint(before.edgesAt, was, kept),
    endPoint(after.edgesAt, node, kept),
  ];
  if (samePoint(drawnBefore, drawnAfter)) return node;
  const at: [number, number] = [drawnBefore[0], drawnBefore[1]];
  if (node.alsoAt === undefined) return { ...node, at };
  return { ...node, at: node.alsoAt, alsoAt: node.at };
}

/** Keeps the ends at nodes drawn twice where they were, when an edit has changed which edge comes second in the file. */
export function keepOpenEnds(before: DraftDocument, after: DraftDocument): DraftDocument {
  if (before.nodes.every(({ alsoAt }) => alsoAt === undefined)) return after;
  const [was, is] = [trackOf(before), trackOf(after)];
  return { ...after, nodes: after.nodes.map((node) => drawnAsBefore(was, is, node)) };
}

/** The ends of some edges. */
export const endsOf = (draft: DraftDocument, edges: ReadonlySet<string>): ReadonlySet<NodeId> =>
  new Set(draft.edges.filter(({ id }) => edges.has(id)).flatMap(({ between }) => between));
