/** Which line each block is drawn with on a plan in one ink, so that two blocks that meet at a gap are told apart. */
import type { BlockId } from '../../ids.ts';
import type { Railroad } from '../railroad.ts';

/** How many kinds of line there are; where more would be needed, neighbours are told by the gap alone. */
export const PLAN_STYLES = 3;

/** A style from 0 for each block with track: the first that no neighbour over a gap has. */
export function planStyles(railroad: Railroad): ReadonlyMap<BlockId, number> {
  const beside = new Map<BlockId, Set<BlockId>>();
  for (const edges of railroad.edgesAt.values())
    for (const one of edges)
      for (const other of edges) {
        const [block, neighbour] = [railroad.blockOfEdge.get(one), railroad.blockOfEdge.get(other)];
        if (block === undefined || neighbour === undefined || block === neighbour) continue;
        beside.set(block, (beside.get(block) ?? new Set()).add(neighbour));
      }
  const styles = new Map<BlockId, number>();
  for (const { id } of railroad.document.blocks) {
    const taken = new Set([...(beside.get(id) ?? [])].map((block) => styles.get(block)));
    const free = Array.from({ length: PLAN_STYLES }, (_, style) => style).find((style) => !taken.has(style));
    styles.set(id, free ?? 0);
  }
  return styles;
}
