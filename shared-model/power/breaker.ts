/** What a breaker does with an overload or a short: whether it opens, and how surely. */
import type { Supply } from '../railroad/document.ts';
import type { Amps, Ohms, Volts } from '../units.ts';
import { ampsText } from './figures.ts';

export type BreakerKind = NonNullable<Supply['breakerKind']>;

/** `surely`: within seconds to a minute. `slowly`: may take minutes. `perhaps-never`: it may hold for ever. `holds`: it is not even overloaded. */
export const OPENINGS = ['surely', 'slowly', 'perhaps-never', 'holds'] as const;
export type Opening = (typeof OPENINGS)[number];

/** Times its rating at which a breaker is counted on to open, and below which it may never: the usual thermal curve (common practice, no source seen). */
export const SURE_TIMES = 2;
export const NEVER_TIMES = 1.35;

export interface BreakerAnswer {
  readonly opens: Opening;
  /** The current as a multiple of the breaker's rating. */
  readonly times: number;
  readonly says: string;
}

function manner(kind: BreakerKind): string {
  switch (kind) {
    case 'electronic':
      return ' An electronic one may open sooner, or limit the current and never open: try it with its own short.';
    case 'magnetic':
      return ' A magnetic one opens at once above its trip current, which its data sheet gives, and not at all below.';
    case 'fuse':
      return ' A fuse melts once; keep spares of the same rating, never a larger one.';
    case 'thermal':
    case 'unknown':
      return '';
  }
}

/**
 * What a breaker does at a current.
 *
 * @param amps the current through it
 * @param rating of the breaker, in amperes
 * @param kind adds a sentence where the kind behaves in its own way; the answer is by the thermal curve for all
 */
export function breakerAt(amps: Amps, rating: Amps, kind: BreakerKind = 'unknown'): BreakerAnswer {
  const times = amps / rating;
  const figure = `${ampsText(amps)} through the ${ampsText(rating)} breaker`;
  if (times <= 1) return { opens: 'holds', times, says: `${figure}: it holds.` };
  if (times < NEVER_TIMES)
    return { opens: 'perhaps-never', times, says: `${figure}: it may never open.${manner(kind)}` };
  if (times < SURE_TIMES) {
    return { opens: 'slowly', times, says: `${figure}: it may take minutes to open.${manner(kind)}` };
  }
  return { opens: 'surely', times, says: `${figure}: it opens.${manner(kind)}` };
}

/**
 * The current of a dead short at the far end.
 *
 * @param volts of the supply, full up
 * @param ohms all resistance in the loop: the supply's own, out and back
 * @returns amperes; Infinity where no resistance is given
 */
export function shortAmps(volts: Volts, ohms: Ohms): Amps {
  return volts / ohms;
}
