/** What the standard for transformers of toys and models allows a supply to give, and why outputs are never tied together. */
import type { Supply } from '../railroad/document.ts';
import type { Amps, Volts } from '../units.ts';
import { ampsText, voltsText } from './figures.ts';
import { isOver, supplyLimit } from './load.ts';

/** IEC 61558-2-7: rated output at most 200 VA and 10 A; rated at most 24 V AC (33 V DC), at most 33 V AC (46 V DC) without load. */
const MOST_VA = 200;
const MOST_AMPS: Amps = 10;
const MOST_VOLTS: Readonly<Record<'ac' | 'dc', Volts>> = { ac: 24, dc: 33 };

/** Volts between two rails above which both figures for touchable outputs are passed: 30 V RMS (NEC Class 2), 33 V AC without load (IEC 61558-2-7). */
export const TOUCHABLE_VOLTS: Volts = 30;

/** Why a gap between supplies that are not in phase may not be bridged: MOROP NEM 609 (2010), section 6.1. */
export const PARALLEL_FORBIDDEN =
  'NEM 609, section 6.1, forbids connecting the outputs of several transformers, in series or in parallel: ' +
  'unequal phase makes a short or raised voltage, and a transformer fed backwards puts lethal mains voltage on the prongs of an unplugged one.';

/**
 * Where a supply goes beyond IEC 61558-2-7 (transformers for toys, by their rated output).
 *
 * @returns a sentence for each limit that is exceeded; none for a supply within them
 */
export function beyondToyLimits(
  supply: Pick<Supply, 'name' | 'ratedVa' | 'maxVolts' | 'wave'>,
): readonly string[] {
  const amps = supplyLimit(supply);
  const current = supply.wave === 'dc' ? 'dc' : 'ac';
  const volts = MOST_VOLTS[current];
  const source = 'is the most for a toy transformer (IEC 61558-2-7)';
  return [
    ...(supply.ratedVa > MOST_VA
      ? [`${supply.name} gives ${supply.ratedVa} VA; ${MOST_VA} VA ${source}.`]
      : []),
    ...(isOver(amps, MOST_AMPS)
      ? [
          `${supply.name} gives ${ampsText(amps)} at ${voltsText(supply.maxVolts)}; ${ampsText(MOST_AMPS)} ${source}.`,
        ]
      : []),
    ...(supply.maxVolts > volts
      ? [
          `${supply.name} gives ${voltsText(supply.maxVolts)}; ${voltsText(volts)} ${current.toUpperCase()} ${source}.`,
        ]
      : []),
  ];
}
