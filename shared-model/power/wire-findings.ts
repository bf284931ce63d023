/** What is wrong with a wire, without saying yet where it lies: the same judgements for a railroad's feeders and for the wire calculator. */
import type { Severity } from '../refusal.ts';
import type { Amps, Millimetres, Volts } from '../units.ts';
import { NEVER_TIMES, SURE_TIMES } from './breaker.ts';
import { ampsText, runText, voltsText } from './figures.ts';
import { breakerCap, DROP_LIMIT_PERCENT, gaugeText, LIGHTEST_TRACK_GAUGE, type WirePiece } from './wire.ts';

/** A judgement that still lacks its place. */
export interface WireJudgement {
  readonly code: 'undersized-wire' | 'voltage-drop' | 'slow-trip';
  readonly severity: Severity;
  readonly says: string;
  readonly remedy: string;
}

/** A drop to the rail at the end of a feeder may be lighter than the rest, up to this length (common practice, no source). */
const SHORT_LAST_PIECE: Millimetres = 300;

/** The lightest even gauge whose cap reaches the breaker. */
function enoughFor(breaker: Amps): string {
  const gauge = [18, 16, 14, 12, 10].find((awg) => (breakerCap(awg) ?? Number.POSITIVE_INFINITY) >= breaker);
  return gauge === undefined ? 'heavier wire, chosen by somebody licensed' : `${gaugeText(gauge)} or heavier`;
}

/**
 * Judges one piece of wire against the breaker that guards it.
 *
 * @param breaker rating of the supply's breaker; undefined where it is not given
 * @param use of the wire: a light gauge is only remarked on for track power
 * @param last true for the piece that ends at the rail
 */
export function judgeGauge(
  { awg, run }: WirePiece,
  breaker: Amps | undefined,
  use: 'track' | 'accessory',
  last: boolean,
): WireJudgement | null {
  const cap = breakerCap(awg);
  if (breaker !== undefined && cap !== null && breaker > cap) {
    const lenient = last && run <= SHORT_LAST_PIECE;
    const source = awg > 18 ? 'common practice' : 'NEC 240.4(D)';
    return {
      code: 'undersized-wire',
      severity: lenient ? 'warning' : 'error',
      says: `${runText(run)} of ${gaugeText(awg)} behind a breaker of ${ampsText(breaker)}; ${ampsText(cap)} is the most for that gauge (${source}).`,
      remedy: lenient
        ? 'A short drop to the rail is usual; keep it as short as it is and away from anything that burns.'
        : `Replace it by ${enoughFor(breaker)}, or put a breaker of at most ${ampsText(cap)} before it.`,
    };
  }
  if (use === 'accessory' || awg <= LIGHTEST_TRACK_GAUGE) return null;
  return {
    code: 'undersized-wire',
    severity: 'warning',
    says: `${runText(run)} of ${gaugeText(awg)} carries track power, which goes on nothing lighter than ${gaugeText(LIGHTEST_TRACK_GAUGE)} (common practice, no source).`,
    remedy: `Use ${gaugeText(14)} for track power; lighter wire is for momentary loads such as a switch machine.`,
  };
}

/** Judges a voltage drop: more than 5 % of the supply's volts (the recommendation of NEC 215.2(A) Note 2 for feeder and branch together). */
export function judgeDrop(drop: Volts, supplyVolts: Volts, amps: Amps): WireJudgement | null {
  const percent = (drop / supplyVolts) * 100;
  if (percent <= DROP_LIMIT_PERCENT) return null;
  return {
    code: 'voltage-drop',
    severity: 'warning',
    says: `At ${ampsText(amps)} ${voltsText(drop)} is lost, ${percent.toFixed(1)} % of ${voltsText(supplyVolts)}; more than ${DROP_LIMIT_PERCENT} % shows as a train that slows down.`,
    remedy: 'Use a heavier gauge, shorten the run, or feed the track at another spot as well.',
  };
}

/** Judges whether a dead short at the far end opens the breaker. */
export function judgeTrip(short: Amps, breaker: Amps): WireJudgement | null {
  const times = short / breaker;
  if (times >= SURE_TIMES) return null;
  const how = times < NEVER_TIMES ? 'may never open' : 'may take minutes to open';
  return {
    code: 'slow-trip',
    severity: 'error',
    says: `A dead short at the far end draws ${ampsText(short)}, ${times.toFixed(2)} times the ${ampsText(breaker)} breaker, which ${how} while the wire gets hot.`,
    remedy:
      'Use heavier wire or a smaller breaker, then try it: a short at the far end has to open the breaker at once.',
  };
}
