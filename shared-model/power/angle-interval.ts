/** Every angle between two voltages that three meter readings allow, once the meter's tolerance is carried through. */
import type { Degrees, Volts } from '../units.ts';

/** Readings between the hot posts and the joined commons, and between the two hots; volts RMS, none negative. */
export interface PhaseReadings {
  readonly voltsA: Volts;
  readonly voltsB: Volts;
  readonly voltsAcross: Volts;
}

export interface AngleInterval {
  readonly from: Degrees;
  readonly to: Degrees;
}

/** A meter is never exact: this share of each reading, in percent, unless the person knows better. */
export const DEFAULT_TOLERANCE_PERCENT = 2;
/** And this much at the least, since the last digits of a small reading are noise. */
export const LEAST_TOLERANCE_VOLTS: Volts = 0.2;
/** Keeps the divisor of the law of cosines from zero where a reading may be nothing at all. */
const NEXT_TO_NOTHING: Volts = 1e-6;

/** Readings at the very end of their tolerance fit; so much of the cosine may be lost to rounding there. */
const HAIRSBREADTH = 1e-12;

interface Range {
  readonly low: number;
  readonly high: number;
}

function within(reading: Volts, tolerancePercent: number): Range {
  const margin = Math.max((reading * tolerancePercent) / 100, LEAST_TOLERANCE_VOLTS);
  return { low: Math.max(reading - margin, 0), high: reading + margin };
}

/**
 * Law of cosines for the triangle of two phasors and their difference.
 *
 * @returns the cosine of the angle between A and B; outside −1 to 1 where the three sides make no triangle
 */
function cosine(voltsA: Volts, voltsB: Volts, voltsAcross: Volts): number {
  return (voltsA ** 2 + voltsB ** 2 - voltsAcross ** 2) / (2 * voltsA * voltsB);
}

const inside = (value: number, range: Range): boolean => value >= range.low && value <= range.high;

/**
 * The lowest cosine over the ranges of A and B with the voltage across at its highest.
 * Along A the cosine falls to a valley at √(B² − across²) and rises again, so the lowest lies at a corner or in the valley of a side.
 */
function lowestCosine(a: Range, b: Range, across: Volts): number {
  const valley = (side: number): number => Math.sqrt(Math.max(side ** 2 - across ** 2, 0));
  const corners = [a.low, a.high].flatMap((x) => [b.low, b.high].map((y) => cosine(x, y, across)));
  const alongA = [b.low, b.high].filter((y) => inside(valley(y), a)).map((y) => cosine(valley(y), y, across));
  const alongB = [a.low, a.high].filter((x) => inside(valley(x), b)).map((x) => cosine(x, valley(x), across));
  return Math.min(...corners, ...alongA, ...alongB);
}

/** The highest cosine: with the voltage across at its lowest, and at a corner, since there is no hill between them. */
function highestCosine(a: Range, b: Range, across: Volts): number {
  return Math.max(...[a.low, a.high].flatMap((x) => [b.low, b.high].map((y) => cosine(x, y, across))));
}

const degreesOf = (cosineOfAngle: number): Degrees =>
  (Math.acos(Math.min(1, Math.max(-1, cosineOfAngle))) * 180) / Math.PI;

/**
 * The angles between two sine voltages that fit three readings (three-voltmeter method: law of cosines).
 *
 * Readings vary independently within their tolerance and the cosine is continuous, so all angles between the two ends fit, and no others.
 * Whether A leads or lags cannot be told from RMS readings: the answer is 0° to 180°.
 *
 * @param tolerancePercent of each reading, but at least 0.2 V
 * @returns the interval in degrees; null where no angle fits (the readings break the triangle inequality)
 */
export function angleInterval(
  readings: PhaseReadings,
  tolerancePercent: number = DEFAULT_TOLERANCE_PERCENT,
): AngleInterval | null {
  const positive = (range: Range): Range => ({ low: Math.max(range.low, NEXT_TO_NOTHING), high: range.high });
  const a = positive(within(readings.voltsA, tolerancePercent));
  const b = positive(within(readings.voltsB, tolerancePercent));
  const across = within(readings.voltsAcross, tolerancePercent);
  const lowest = lowestCosine(a, b, across.high);
  const highest = highestCosine(a, b, across.low);
  if (lowest > 1 + HAIRSBREADTH || highest < -1 - HAIRSBREADTH) return null;
  return { from: degreesOf(highest), to: degreesOf(lowest) };
}
