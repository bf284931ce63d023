/** The list of phase checks: a new one of a pair replaces the former, and a supply whose plug was out makes its own lapse. */
import type { SupplyId } from '../../ids.ts';
import type { PhaseCheckNow } from '../state.ts';

type Checks = readonly PhaseCheckNow[];

/** The list with a new check, which is the latest of its pair, whichever way round it was made. */
export function withCheck(checks: Checks, check: PhaseCheckNow): Checks {
  const { a, b } = check;
  const others = checks.filter(
    (other) => !(other.a === a && other.b === b) && !(other.a === b && other.b === a),
  );
  return [...others, check];
}

/** The list after a supply was replugged or exchanged: what was measured with it says nothing any more. */
export function lapsedFor(checks: Checks, supply: SupplyId): Checks {
  return checks.map((check) =>
    check.a === supply || check.b === supply ? { ...check, lapsed: true } : check,
  );
}
