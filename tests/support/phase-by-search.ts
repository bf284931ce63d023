/**
 * A second computation of a phase check, from the design's words alone and by another way than the engine's:
 * two phasors as complex numbers, every angle tried, and the angles kept at which the meter's tolerances leave room for the reading across.
 */
import Complex from 'complex.js';

interface Range {
  readonly low: number;
  readonly high: number;
}

/** What a reading may stand for: a share of it to both sides, 0.2 V at the least. */
function room(reading: number, percent: number): Range {
  const margin = Math.max((reading * percent) / 100, 0.2);
  return { low: Math.max(0, reading - margin), high: reading + margin };
}

/** Volts between two phasors. */
const apart = (a: number, b: number, degrees: number): number =>
  new Complex(a).sub(new Complex({ abs: b, arg: (degrees * Math.PI) / 180 })).abs();

/** The least of a function that falls and then rises, by thirds. */
function least(of: (value: number) => number, { low, high }: Range): number {
  let [from, to] = [low, high];
  for (let step = 0; step < 45; step += 1) {
    const third = (to - from) / 3;
    if (of(from + third) < of(to - third)) to -= third;
    else from += third;
  }
  return of((from + to) / 2);
}

/** The least and the most that may stand across at an angle, whatever the two supplies really give within their room. */
function acrossAt(a: Range, b: Range, degrees: number): Range {
  const corners = [a.low, a.high].flatMap((x) => [b.low, b.high].map((y) => apart(x, y, degrees)));
  // Distance is convex in both, so the least of the leasts is the least; the most lies at a corner.
  const low = least((x) => least((y) => apart(x, y, degrees), b), a);
  return { low, high: Math.max(...corners) };
}

export interface SearchedPhase {
  readonly verdict: string;
  readonly from: number | null;
  readonly to: number | null;
}

/** The first angle at which something holds that holds from some angle on; 180 is known to be one. */
function firstFrom(holds: (degrees: number) => boolean): number {
  if (holds(0)) return 0;
  let [not, yes] = [0, 180];
  for (let step = 0; step < 40; step += 1) {
    const middle = (not + yes) / 2;
    if (holds(middle)) yes = middle;
    else not = middle;
  }
  return yes;
}

export function phaseBySearch(
  voltsA: number,
  voltsB: number,
  voltsAcross: number,
  percent = 2,
): SearchedPhase {
  const [a, b, across] = [room(voltsA, percent), room(voltsB, percent), room(voltsAcross, percent)];
  const enough = (degrees: number) => acrossAt(a, b, degrees).high >= across.low;
  const tooMuch = (degrees: number) => acrossAt(a, b, degrees).low > across.high;
  const fits = enough(180) && !tooMuch(0);
  const off = voltsA < 1 || voltsB < 1;
  if (!fits) return { verdict: off ? 'unclear' : 'inconsistent', from: null, to: null };
  const from = firstFrom(enough);
  const to = tooMuch(180) ? firstFrom(tooMuch) : 180;
  const holds = (degrees: number) => from <= degrees && degrees <= to;
  if (off) return { verdict: 'unclear', from, to };
  if (to < 20) return { verdict: 'in-phase', from, to };
  if (holds(180) && from > 135) return { verdict: 'reversed', from, to };
  return { verdict: holds(60) || holds(120) ? 'different-legs' : 'unclear', from, to };
}
