/** Phase checks with the moments at which they were made. */
import type { AgedCheck } from '../../shared-model/power/phase-due.ts';
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import { sameJson } from '../../shared-model/railroad/editing/edit-between.ts';
import type { PhaseCheckNow } from '../../shared-model/session/state.ts';

/** A check with its moment, in milliseconds of the calendar. */
export interface DatedCheck extends PairCheck {
  readonly measuredAt: number;
}

/** @param zero the moment from which the checks count their seconds, in milliseconds of the calendar */
export function dated(checks: readonly PhaseCheckNow[], zero: number): readonly DatedCheck[] {
  return checks.map(({ at, ...check }) => ({ ...check, measuredAt: zero + at * 1000 }));
}

/** Checks that are read twice count their seconds from two answers: their moments differ by what the answers took. */
const SAME_MOMENT_MS = 2000;

/** Whether two lists hold the same checks of the same moments. */
export const sameChecks = (one: readonly DatedCheck[], other: readonly DatedCheck[]): boolean =>
  one.length === other.length &&
  one.every((check, index) => {
    const twin = other[index];
    if (twin === undefined || Math.abs(check.measuredAt - twin.measuredAt) > SAME_MOMENT_MS) return false;
    return sameJson({ ...check, measuredAt: 0 }, { ...twin, measuredAt: 0 });
  });

/** Checks with their ages at a moment (milliseconds of the calendar). */
export function aged(checks: readonly DatedCheck[], now: number): readonly AgedCheck[] {
  return checks.map((check) => ({ ...check, age: (now - check.measuredAt) / 1000 }));
}
