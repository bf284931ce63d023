/** Phase checks with the moments at which they were made. */
import type { AgedCheck } from '../../shared-model/power/phase-due.ts';
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import type { PhaseCheckNow } from '../../shared-model/session/state.ts';

/** A check with its moment, in milliseconds of the calendar. */
export interface DatedCheck extends PairCheck {
  readonly measuredAt: number;
}

/** @param zero the moment from which the checks count their seconds, in milliseconds of the calendar */
export function dated(checks: readonly PhaseCheckNow[], zero: number): readonly DatedCheck[] {
  return checks.map(({ at, ...check }) => ({ ...check, measuredAt: zero + at * 1000 }));
}

/** Checks with their ages at a moment (milliseconds of the calendar). */
export function aged(checks: readonly DatedCheck[], now: number): readonly AgedCheck[] {
  return checks.map((check) => ({ ...check, age: (now - check.measuredAt) / 1000 }));
}
