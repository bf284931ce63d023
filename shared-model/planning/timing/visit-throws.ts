/** Which throws of a plan are for a stay in a block. */
import type { BlockId, NodeId } from '../../ids.ts';
import { feedOf } from '../../railroad/feed.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Seconds } from '../../units.ts';
import type { PlanThrow } from '../plan-answer.ts';

/**
 * The throws before a head's coming that may be for it: of what feeds the block, and of the turnouts in it.
 *
 * @returns places in the list of throws
 */
export function throwsForVisit(
  railroad: Railroad,
  block: BlockId,
  headIn: Seconds,
  throws: readonly PlanThrow[],
): readonly number[] {
  const feed = feedOf(railroad, block);
  const knobs = new Set<string>([...(feed?.toggles ?? []), ...(feed?.selector ? [feed.selector] : [])]);
  const isIn = (node: NodeId): boolean =>
    (railroad.edgesAt.get(node) ?? []).some((edge) => railroad.blockOfEdge.get(edge) === block);
  return throws.flatMap(({ kind, id, at }, place) =>
    at < headIn && (kind === 'turnout' ? isIn(id as NodeId) : knobs.has(id)) ? [place] : [],
  );
}
