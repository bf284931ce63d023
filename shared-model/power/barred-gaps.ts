/** Gaps that must not be crossed now, as the knobs stand: their two sides are on supplies that are not known to be in phase. */
import type { BlockId, NodeId, ThrottleId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { meetingsOf } from './audit-phase.ts';
import { type PairCheck, type PhaseRelation, phaseGroups } from './phase-groups.ts';

const WHY: Readonly<Partial<Record<PhaseRelation, string>>> = {
  reversed: 'reversed',
  'different-legs': 'different legs',
  unknown: 'phase not checked',
};

/**
 * The barred gaps.
 *
 * @param checks phase checks in the order of measuring
 * @param throttleAt which throttle feeds a block now; null where it is dead
 * @returns why, in a few words that fit beside the gap
 */
export function barredGaps(
  railroad: Railroad,
  checks: readonly PairCheck[],
  throttleAt: (block: BlockId) => ThrottleId | null,
): ReadonlyMap<NodeId, string> {
  const groups = phaseGroups(checks);
  const barred = new Map<NodeId, string>();
  const supplyAt = (block: BlockId) => {
    const throttle = throttleAt(block);
    return throttle === null ? undefined : railroad.throttles.get(throttle)?.supply;
  };
  for (const { gap, blocks, supplies } of meetingsOf(railroad)) {
    const [one, other] = blocks.map(supplyAt);
    if (one === undefined || other === undefined || one === other) continue;
    if (!supplies.includes(one) || !supplies.includes(other)) continue;
    const why = WHY[groups.relation(one, other)];
    if (why !== undefined) barred.set(gap, why);
  }
  return barred;
}
