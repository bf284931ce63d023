/** Where the ends of edges are drawn. */
import type { EdgeId, NodeId } from '../ids.ts';
import type { Point } from '../polyline.ts';
import type { TrackNode } from './document.ts';

/** Where an edge's end at a node is drawn: of a node drawn twice, the second edge's end (in the file's order) is at `alsoAt`. */
export const endPoint = (
  edgesAt: ReadonlyMap<NodeId, readonly EdgeId[]>,
  node: TrackNode,
  edge: EdgeId,
): Point => (node.alsoAt !== undefined && edgesAt.get(node.id)?.[1] === edge ? node.alsoAt : node.at);
