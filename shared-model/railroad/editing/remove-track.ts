/** Taking track away, with what leans on it: feeders and places on an edge that goes. */
import type { NodeId } from '../../ids.ts';
import type { DraftDocument } from './draft.ts';
import { fitNodes } from './fit-nodes.ts';
import { endsOf, keepOpenEnds } from './open-ends.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { mergeAt } from './split-edge.ts';
import { trackOf } from './track.ts';

function withoutEdges(draft: DraftDocument, gone: ReadonlySet<string>): DraftDocument {
  const ends = endsOf(draft, gone);
  const blocks = draft.blocks.map((block) =>
    block.feeders.some(({ edge }) => gone.has(edge))
      ? { ...block, feeders: block.feeders.filter(({ edge }) => !gone.has(edge)) }
      : block,
  );
  const places = draft.places.map((place) =>
    place.at.some(({ edge }) => gone.has(edge))
      ? { ...place, at: place.at.filter(({ edge }) => !gone.has(edge)) }
      : place,
  );
  const left = { ...draft, blocks, places, edges: draft.edges.filter(({ id }) => !gone.has(id)) };
  // Before nodes are fitted, since an id may follow the kind.
  return fitNodes(keepOpenEnds(draft, left), ends);
}

/**
 * Takes edges and nodes away. A joint or gap that goes leaves one edge where two were; another node takes its edges with it. Feeders
 * and places on an edge that goes go too; blocks stay, so that their wiring is not lost.
 *
 * @param ids edges and nodes; others are passed over
 */
export function removeTrack(draft: DraftDocument, ids: ReadonlySet<string>): Outcome {
  const track = trackOf(draft);
  const [alone, whole] = [new Set<NodeId>(), new Set<string>()];
  for (const { id } of draft.edges) if (ids.has(id)) whole.add(id);
  for (const { id, kind } of draft.nodes) {
    if (!ids.has(id)) continue;
    const edges = track.edgesAt.get(id) ?? [];
    if ((kind === 'gap' || kind === 'joint') && edges.length === 2) {
      if (!edges.some((edge) => ids.has(edge))) alone.add(id);
    } else for (const edge of edges) whole.add(edge);
  }
  if (whole.size === 0 && alone.size === 0) return refused('nothing of the track is selected');
  let after = withoutEdges(draft, whole);
  for (const node of alone) {
    const edges = trackOf(after).edgesAt.get(node);
    if (edges?.length !== 2) continue;
    const merged = mergeAt(after, node);
    if (!merged.ok) return merged;
    after = merged.draft;
  }
  return done(after);
}
