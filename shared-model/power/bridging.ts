/** What flows when a pickup across a gap ties two throttles together, and which breaker stands against it. */
import type { Supply, Throttle } from '../railroad/document.ts';
import type { Amps, Degrees, Ohms, Volts } from '../units.ts';
import { type BreakerAnswer, breakerAt } from './breaker.ts';
import { ampsText } from './figures.ts';

/**
 * Volts between two phasors: |E_a − E_b∠θ| by the law of cosines.
 *
 * @param degrees angle between the two
 */
export function voltsBetween(voltsA: Volts, voltsB: Volts, degrees: Degrees): Volts {
  const cosine = Math.cos((degrees * Math.PI) / 180);
  return Math.sqrt(Math.max(voltsA ** 2 + voltsB ** 2 - 2 * voltsA * voltsB * cosine, 0));
}

/**
 * Current through a bridged gap between two supplies: I = |E_a − E_b∠θ| / (Z_a + Z_b + R_wire).
 *
 * @param voltsAcross between the two hots before they are bridged (a reading, or `voltsBetween`)
 * @param ohms impedances of both supplies and the wire between, together
 * @returns amperes; Infinity where volts stand across and no resistance is given
 */
export function bridgingAmps(voltsAcross: Volts, ohms: Ohms): Amps {
  return voltsAcross === 0 ? 0 : voltsAcross / ohms;
}

export interface BreakerOnBridge extends BreakerAnswer {
  /** The supply or throttle whose breaker it is. */
  readonly of: string;
  readonly rating: Amps;
}

/** `amps` is null where no current is claimed. */
export interface Bridge {
  readonly amps: Amps | null;
  readonly breakers: readonly BreakerOnBridge[];
  readonly protectedBy: 'breaker' | 'nothing';
  readonly says: string;
}

type BridgedSupply = Pick<Supply, 'id' | 'name' | 'impedanceOhms' | 'breakerAmps' | 'breakerKind'>;
type BridgedThrottle = Pick<Throttle, 'id' | 'name' | 'breakerAmps'>;

/**
 * A train across a gap between two supplies.
 *
 * @param voltsAcross between the hots, volts RMS
 * @param wireOhms of the wire between the two supplies' posts by way of the gap; 0 where it is not known, which is the worst case
 */
export function bridgeOfSupplies(
  a: BridgedSupply,
  b: BridgedSupply,
  voltsAcross: Volts,
  wireOhms: Ohms = 0,
): Bridge {
  const amps = bridgingAmps(voltsAcross, a.impedanceOhms + b.impedanceOhms + wireOhms);
  const breakers = [a, b].map((supply) => ({
    of: supply.id,
    rating: supply.breakerAmps,
    ...breakerAt(amps, supply.breakerAmps, supply.breakerKind),
  }));
  const opening = breakers.some((breaker) => breaker.opens === 'surely');
  const idle = breakers.every((breaker) => breaker.opens === 'holds');
  const verdict = idle
    ? 'neither breaker opens, and the pickups and wires carry it for as long as the train stands there'
    : opening
      ? 'a breaker opens, after the pickups have carried it'
      : 'no breaker is sure to open';
  return {
    amps,
    breakers,
    protectedBy: opening ? 'breaker' : 'nothing',
    says:
      amps === 0
        ? `Nothing flows through a gap bridged between ${a.name} and ${b.name} at these settings.`
        : `${ampsText(amps)} through a gap bridged between ${a.name} and ${b.name}: ${verdict}.`,
  };
}

/**
 * A train across a gap between two throttles of one supply.
 *
 * The loop closes through the winding between their taps and not through the common, so the supply's breaker does not see it
 * and its impedance says nothing about it: only a throttle's own breaker opens, and no current is claimed.
 */
export function bridgeWithinSupply(
  supply: Pick<Supply, 'name'>,
  throttles: readonly BridgedThrottle[],
): Bridge {
  const own = throttles.filter((throttle) => throttle.breakerAmps !== undefined);
  const where = `A gap bridged between two throttles of ${supply.name}`;
  return {
    amps: null,
    breakers: [],
    protectedBy: own.length > 0 ? 'breaker' : 'nothing',
    says:
      own.length > 0
        ? `${where}: only the breaker of ${own.map((throttle) => throttle.name).join(' or ')} can open on it, the supply's own does not see it.`
        : `${where}: not protected. The loop closes through the winding between their taps, and the supply's breaker does not see it. Bring both handles to the same speed.`,
  };
}
