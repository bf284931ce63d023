/** Phase of supplies from three readings, by the law of cosines over the whole box of tolerances, and pairs by following every chain. */
import { sure } from './sure.ts';

export type Verdict = 'in-phase' | 'reversed' | 'different-legs' | 'inconsistent' | 'unclear';
export type Relation = 'in-phase' | 'reversed' | 'different-legs' | 'unknown';

export interface Check {
  a: string;
  b: string;
  verdict: Verdict;
}

const band = (volts: number): [number, number] => {
  const off = Math.max(0.02 * volts, 0.2);
  return [Math.max(volts - off, 0), volts + off];
};
const cosine = (a: number, b: number, across: number): number =>
  (a * a + b * b - across * across) / (2 * a * b);
const degrees = (cos: number): number => (Math.acos(Math.min(1, Math.max(-1, cos))) * 180) / Math.PI;

export function verdictOf(voltsA: number, voltsB: number, voltsAcross: number): Verdict {
  if (voltsA < 1 || voltsB < 1) return 'unclear';
  const [aLow, aHigh] = band(voltsA);
  const [bLow, bHigh] = band(voltsB);
  const [acrossLow, acrossHigh] = band(voltsAcross);
  const inside = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
  // Largest at a corner, at the least volts across. Smallest at the most volts across: at a corner or where a side is level.
  const most = Math.max(...[aLow, aHigh].flatMap((a) => [bLow, bHigh].map((b) => cosine(a, b, acrossLow))));
  const level = (other: number): number => Math.sqrt(Math.max(other * other - acrossHigh * acrossHigh, 0));
  const least = Math.min(
    ...[aLow, aHigh].flatMap((a) =>
      [bLow, bHigh, inside(level(a), bLow, bHigh)].map((b) => cosine(a, b, acrossHigh)),
    ),
    ...[bLow, bHigh].map((b) => cosine(inside(level(b), aLow, aHigh), b, acrossHigh)),
  );
  if (most < -1 || least > 1) return 'inconsistent';
  const from = degrees(most);
  const to = degrees(least);
  if (to < 20) return 'in-phase';
  if (to >= 180 && from > 135) return 'reversed';
  if ((from <= 60 && to >= 60) || (from <= 120 && to >= 120)) return 'different-legs';
  return 'unclear';
}

/** Follows every chain of checks between two supplies that visits none twice; they must agree. */
export function relation(checks: readonly Check[], a: string, b: string): Relation {
  if (a === b) return 'in-phase';
  const found = new Set<Relation>();
  const walk = (at: string, visited: string[], reversedTimes: number, legs: number): void => {
    if (at === b) {
      if (legs === 0) found.add(reversedTimes % 2 === 0 ? 'in-phase' : 'reversed');
      if (legs === 1) found.add('different-legs');
      return;
    }
    for (const check of checks) {
      if (check.verdict === 'unclear' || check.verdict === 'inconsistent') continue;
      const next = check.a === at ? check.b : check.b === at ? check.a : null;
      if (next === null || visited.includes(next)) continue;
      walk(
        next,
        [...visited, next],
        reversedTimes + (check.verdict === 'reversed' ? 1 : 0),
        legs + (check.verdict === 'different-legs' ? 1 : 0),
      );
    }
  };
  walk(a, [a], 0, 0);
  return found.size === 1 ? sure([...found][0]) : 'unknown';
}
