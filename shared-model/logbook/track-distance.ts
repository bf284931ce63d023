/** How far along the railroad everything lies: by the shortest track from its first place, whatever way a train could take. */
import TinyQueue from 'tinyqueue';
import type { NodeId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Millimetres } from '../units.ts';

/** The places in their order along the railroad; those of one order as in the document. */
export const placesInOrder = ({ document }: Railroad) =>
  document.places.toSorted((a, b) => a.order - b.order);

/** Where distances are counted from: the first place, else the first node of the document. */
export function firstNode(railroad: Railroad): NodeId | null {
  const [place] = placesInOrder(railroad);
  return place?.at[0]?.toward ?? railroad.document.nodes[0]?.id ?? null;
}

/** The shortest track from a node to every other (Dijkstra 1959); what no track joins with it is not in the answer. */
export function distancesFrom(railroad: Railroad, origin: NodeId | null): ReadonlyMap<NodeId, Millimetres> {
  const reached = new Map<NodeId, Millimetres>();
  if (origin === null) return reached;
  const queue = new TinyQueue([{ node: origin, lengthMm: 0 }], (a, b) => a.lengthMm - b.lengthMm);
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (reached.has(at.node)) continue;
    reached.set(at.node, at.lengthMm);
    for (const id of railroad.edgesAt.get(at.node) ?? []) {
      const edge = railroad.edges.get(id);
      const other = edge?.between.find((end) => end !== at?.node);
      if (edge !== undefined && other !== undefined && !reached.has(other))
        queue.push({ node: other, lengthMm: at.lengthMm + edge.length });
    }
  }
  return reached;
}
