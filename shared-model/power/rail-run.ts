/** How far the current runs in the rail beyond a feeder: to the farthest spot of the block that no other feeder is nearer to. */
import type { EdgeId, NodeId } from '../ids.ts';
import type { Block } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Millimetres } from '../units.ts';

/** A name for the rail at an edge's end: shared by the edges that are one conductor there, never across a gap or an insulated crossing. */
function contact(railroad: Railroad, node: NodeId, edge: EdgeId): string {
  const found = railroad.nodes.get(node);
  if (found?.kind === 'gap') return JSON.stringify([node, edge]);
  if (found?.kind === 'crossing' && found.insulated) {
    return JSON.stringify([node, found.ways.findIndex((way) => way.includes(edge))]);
  }
  return JSON.stringify([node]);
}

interface Reached {
  readonly distance: Millimetres;
  /** The feeder's edge that it is nearest to. */
  readonly from: EdgeId;
}

/**
 * The longest stretch of rail behind each feeder of a block. A feeder is taken to be at the middle of its edge.
 *
 * @returns millimetres by the feeders' edges, along the shortest way in the rail
 */
export function railRuns(railroad: Railroad, block: Block): ReadonlyMap<EdgeId, Millimetres> {
  const edges = (railroad.edgesOfBlock.get(block.id) ?? []).flatMap((id) => {
    const edge = railroad.edges.get(id);
    return edge === undefined
      ? []
      : [{ id, length: edge.length, ends: edge.between.map((node) => contact(railroad, node, id)) }];
  });
  const feeding = new Set(block.feeders.map((feeder) => feeder.edge));
  const reached = new Map<string, Reached>();
  const runs = new Map<EdgeId, Millimetres>();
  const reach = (end: string, now: Reached): boolean => {
    const before = reached.get(end);
    if (before !== undefined && before.distance <= now.distance) return false;
    reached.set(end, now);
    return true;
  };
  for (const { id, length, ends } of edges) {
    if (!feeding.has(id)) continue;
    runs.set(id, length / 2);
    for (const end of ends) reach(end, { distance: length / 2, from: id });
  }
  // Distances settle by going over all edges again until nothing gets shorter (Bellman and Ford): blocks are small.
  for (let shorter = true; shorter; ) {
    shorter = false;
    for (const { length, ends } of edges) {
      const [one, other] = ends.map((end) => ({ end, at: reached.get(end) }));
      for (const [near, far] of [
        [one, other],
        [other, one],
      ] as const) {
        if (near?.at === undefined || far === undefined) continue;
        shorter = reach(far.end, { distance: near.at.distance + length, from: near.at.from }) || shorter;
      }
    }
  }
  for (const { id, length, ends } of edges) {
    const at = ends.flatMap((end) => reached.get(end) ?? []);
    if (feeding.has(id) || at.length < 2) continue;
    // The farthest spot of an edge fed from both ends is where the two ways are equally long.
    const farthest = (at.reduce((sum, { distance }) => sum + distance, 0) + length) / 2;
    for (const { from } of at) runs.set(from, Math.max(runs.get(from) ?? 0, farthest));
  }
  return runs;
}
