/** Which phase checks are due before an evening: pairs of supplies that can meet at a gap and are not soundly known. */
import type { SupplyId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Seconds } from '../units.ts';
import { meetingsOf } from './audit-phase.ts';
import { type PairCheck, phaseGroups } from './phase-groups.ts';

export const DUE_REASONS = ['never', 'lapsed', 'old', 'no-verdict', 'contradiction'] as const;
export type DueReason = (typeof DUE_REASONS)[number];

export interface PhaseDue {
  readonly a: SupplyId;
  readonly b: SupplyId;
  readonly why: DueReason;
  /** How many gaps wait for it. */
  readonly gaps: number;
}

/** A check with its age. */
export interface AgedCheck extends PairCheck {
  readonly age: Seconds;
}

function reason(checks: readonly AgedCheck[], a: SupplyId, b: SupplyId, oldAfter: Seconds): DueReason {
  const on = (check: AgedCheck) => [check.a, check.b].every((supply) => supply === a || supply === b);
  const own = checks.filter(on).at(-1);
  if (
    phaseGroups(checks)
      .contradictions.flat()
      .some((check) => [check.a, check.b].some((supply) => supply === a || supply === b))
  )
    return 'contradiction';
  if (own === undefined) return checks.some((check) => check.age > oldAfter) ? 'old' : 'never';
  if (own.lapsed === true) return 'lapsed';
  return own.age > oldAfter ? 'old' : 'no-verdict';
}

/**
 * The checks that are due, each pair once, those with most gaps first.
 *
 * @param checks in the order of measuring, with their ages in seconds
 * @param oldAfter age from which a check is no longer relied on
 */
export function checksDue(
  railroad: Railroad,
  checks: readonly AgedCheck[],
  oldAfter: Seconds,
): readonly PhaseDue[] {
  if (railroad.document.system === 'two-rail-dc') return [];
  const fresh = phaseGroups(
    checks.map((check) => (check.age > oldAfter ? { ...check, lapsed: true } : check)),
  );
  const due = new Map<string, PhaseDue>();
  for (const { supplies } of meetingsOf(railroad)) {
    const [a, b] = supplies;
    if (fresh.relation(a, b) !== 'unknown') continue;
    const key = JSON.stringify(supplies);
    const before = due.get(key);
    due.set(key, { a, b, why: reason(checks, a, b, oldAfter), gaps: (before?.gaps ?? 0) + 1 });
  }
  return [...due.values()].sort((one, other) => other.gaps - one.gaps);
}
