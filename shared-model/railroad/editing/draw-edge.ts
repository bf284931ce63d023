/** Drawing track: an edge between two spots of the sheet. Nodes join where they meet. */
import type { EdgeId, NodeId } from '../../ids.ts';
import { distance, distanceToLine, lineLength, nearestOnLine, type Point } from '../../polyline.ts';
import type { TrackNode } from '../document.ts';
import { type DraftDocument, freshId } from './draft.ts';
import { fitNodes, MOST_EDGES, prefixOf } from './fit-nodes.ts';
import { keepOpenEnds } from './open-ends.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { splitEdge } from './split-edge.ts';
import { lineOf, type Track, trackOf } from './track.ts';

/** How near a spot has to be to a node or an edge to be on it, in squares of the sheet. */
export const REACH_SQUARES = 0.3;

/** What is at a spot of the sheet: a node before an edge, the nearest of each; `share` is how far along the edge. */
export type AtSpot =
  | { readonly is: 'node'; readonly node: TrackNode }
  | { readonly is: 'edge'; readonly edge: EdgeId; readonly share: number }
  | null;

const spotsOf = ({ at, alsoAt }: TrackNode): readonly Point[] => (alsoAt === undefined ? [at] : [at, alsoAt]);

/**
 * @param reach in squares
 */
export function thingAtSpot(
  draft: DraftDocument,
  spot: Point,
  reach: number = REACH_SQUARES,
  track: Track = trackOf(draft),
): AtSpot {
  const near = (node: TrackNode) => Math.min(...spotsOf(node).map((at) => distance(at, spot)));
  const node = draft.nodes
    .filter((one) => near(one) <= reach)
    .reduce<TrackNode | null>((best, one) => (best === null || near(one) < near(best) ? one : best), null);
  if (node !== null) return { is: 'node', node };
  let best: { readonly edge: EdgeId; readonly share: number; readonly away: number } | null = null;
  for (const edge of draft.edges) {
    const line = lineOf(track, edge);
    if (line.length < 2 || distanceToLine(spot, line) > Math.min(reach, best?.away ?? reach)) continue;
    const { along, distance: away } = nearestOnLine(spot, line);
    const whole = lineLength(line);
    best = { edge: edge.id, share: whole === 0 ? 0.5 : along / whole, away };
  }
  return best === null ? null : { is: 'edge', edge: best.edge, share: best.share };
}

type Landed =
  | { readonly ok: true; readonly draft: DraftDocument; readonly node: NodeId }
  | { readonly ok: false; readonly says: string };

/** A node at a spot for one more edge: one that is there, a joint put into the edge that is there, or a new end. */
function landAt(draft: DraftDocument, spot: Point): Landed {
  const track = trackOf(draft);
  const there = thingAtSpot(draft, spot, REACH_SQUARES, track);
  if (there === null) {
    const node: TrackNode = {
      id: freshId(draft, prefixOf('end')) as NodeId,
      kind: 'end',
      at: [spot[0], spot[1]],
    };
    return { ok: true, draft: { ...draft, nodes: [...draft.nodes, node] }, node: node.id };
  }
  if (there.is === 'edge') {
    const edge = track.edges.get(there.edge);
    if (edge === undefined) return refused(`there is no edge ${there.edge}`) as Landed & { ok: false };
    const split = splitEdge(draft, edge, Math.min(0.95, Math.max(0.05, there.share)), 'joint');
    return { ok: true, draft: split.draft, node: split.node };
  }
  const { id, kind, alsoAt } = there.node;
  const edges = track.edgesAt.get(id)?.length ?? 0;
  const no = (says: string): Landed => ({ ok: false, says });
  if (edges >= MOST_EDGES) return no(`${MOST_EDGES} edges meet at ${id} already: no more can`);
  if (kind === 'gap')
    return no(
      `${id} is a gap, where only two edges meet: make it a joint first, or join the track beside it`,
    );
  if (alsoAt !== undefined) return no(`${id} is drawn twice: close it first, or join the track beside it`);
  return { ok: true, draft, node: id };
}

/**
 * Draws an edge. Where it begins and ends on a node it joins it, where on an edge that one gets a joint, else a new end of track is made.
 *
 * @param points from its start over its bends to its end, in squares of the sheet
 * @param length of the track, in millimetres
 * @returns about the new edge; refused when it is nowhere long, or a node has edges enough
 */
export function drawEdge(draft: DraftDocument, points: readonly Point[], length: number): Outcome {
  const [start, end] = [points[0], points.at(-1)];
  if (start === undefined || end === undefined || points.length < 2)
    return refused('an edge needs a start and an end');
  const from = landAt(draft, start);
  if (!from.ok) return from;
  const to = landAt(from.draft, end);
  if (!to.ok) return to;
  if (from.node === to.node)
    return refused('an edge has to end elsewhere than where it begins: a loop needs two edges at least');
  const id = freshId(to.draft, 'e') as EdgeId;
  const bends = points.slice(1, -1).map(([x, y]) => [x, y] as [number, number]);
  const drawn: DraftDocument = {
    ...to.draft,
    edges: [
      ...to.draft.edges,
      { id, between: [from.node, to.node], length, ...(bends.length === 0 ? {} : { shape: bends }) },
    ],
  };
  return done(fitNodes(keepOpenEnds(draft, drawn), [from.node, to.node]), id);
}
