/** Shortest track between two spots of one section, as the current goes: over any node but a gap, whatever way a train could take. */
import TinyQueue from 'tinyqueue';
import type { EdgeId } from '../ids.ts';
import type { Millimetres } from '../units.ts';
import type { Railroad, Section } from './railroad.ts';
import { joinedAt } from './railroad.ts';

export interface TrackBetween {
  /** From an edge of the first list to one of the second, both included. */
  readonly edges: readonly EdgeId[];
  readonly lengthMm: Millimetres;
}

interface Reach {
  readonly edge: EdgeId;
  readonly lengthMm: Millimetres;
  readonly before: Reach | null;
}

function edgesOf(reach: Reach): EdgeId[] {
  const edges: EdgeId[] = [];
  for (let at: Reach | null = reach; at !== null; at = at.before) edges.unshift(at.edge);
  return edges;
}

/**
 * The shortest track between any of some edges and any of some others (Dijkstra 1959), all within one section.
 *
 * @returns its edges and their summed length, both end edges counted whole; no edges and Infinity when either list is empty
 */
export function shortestTrack(
  railroad: Railroad,
  section: Section,
  from: readonly EdgeId[],
  to: readonly EdgeId[],
): TrackBetween {
  const inside = new Set(section.edges);
  const targets = new Set(to);
  const done = new Set<EdgeId>();
  const length = (edge: EdgeId): Millimetres => railroad.edges.get(edge)?.length ?? 0;
  const queue = new TinyQueue<Reach>(
    from.map((edge) => ({ edge, lengthMm: length(edge), before: null })),
    (a, b) => a.lengthMm - b.lengthMm,
  );
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (done.has(at.edge)) continue;
    done.add(at.edge);
    if (targets.has(at.edge)) return { edges: edgesOf(at), lengthMm: at.lengthMm };
    const reached = at.edge;
    for (const end of railroad.edges.get(reached)?.between ?? []) {
      const node = railroad.nodes.get(end);
      const groups = node === undefined ? [] : joinedAt(node, railroad.edgesAt.get(end) ?? []);
      for (const edge of groups.find((group) => group.includes(reached)) ?? [])
        if (inside.has(edge) && !done.has(edge))
          queue.push({ edge, lengthMm: at.lengthMm + length(edge), before: at });
    }
  }
  return { edges: [], lengthMm: Number.POSITIVE_INFINITY };
}
