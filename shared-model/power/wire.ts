/** Copper wire by gauge: its resistance, what it drops, and the largest breaker it may hang on. */
import type { Amps, Millimetres, Ohms, Volts } from '../units.ts';

/** Degrees on the Celsius scale. */
export type Celsius = number;

/** One piece of wire, one way. Gauges are American Wire Gauge numbers; 0 to -3 are 1/0 to 4/0. */
export interface WirePiece {
  readonly awg: number;
  readonly run: Millimetres;
}

/** Annealed copper at 20 °C, in Ω·mm²/m: 1/58 (IEC 60028). */
const COPPER_OHM_MM2_PER_METRE = 1 / 58;
/** Temperature coefficient of annealed copper at 20 °C, per kelvin (IEC 60028). */
const COPPER_PER_KELVIN = 0.003_93;
const REFERENCE_CELSIUS: Celsius = 20;

/** Diameter of a gauge in millimetres: 0.005 in × 92^((36 − n)/39) (ASTM B258). */
export function gaugeDiameter(awg: number): Millimetres {
  return 0.127 * 92 ** ((36 - awg) / 39);
}

/** Cross-section of a gauge in square millimetres. */
export function gaugeArea(awg: number): number {
  return (Math.PI / 4) * gaugeDiameter(awg) ** 2;
}

/** Resistance of one metre of solid copper wire of a gauge: ρ/A at 20 °C, × (1 + 0.00393 (T − 20)) (IEC 60028). */
export function ohmsPerMetre(awg: number, celsius: Celsius = REFERENCE_CELSIUS): Ohms {
  const warm = 1 + COPPER_PER_KELVIN * (celsius - REFERENCE_CELSIUS);
  return (COPPER_OHM_MM2_PER_METRE / gaugeArea(awg)) * warm;
}

/** The pieces of a wire, whether it is given as one piece or as a list. */
export function piecesOf(wire: WirePiece | readonly WirePiece[]): readonly WirePiece[] {
  return 'awg' in wire ? [wire] : wire;
}

/** Resistance of a wire from end to end, one way; several pieces in a row add up. */
export function wireOhms(wire: WirePiece | readonly WirePiece[], celsius: Celsius = REFERENCE_CELSIUS): Ohms {
  return piecesOf(wire).reduce((sum, { awg, run }) => sum + (ohmsPerMetre(awg, celsius) * run) / 1000, 0);
}

/** What a train's current flows through: out by its own feeder, back by a return that others may share. */
export interface Circuit {
  readonly feederOhms: Ohms;
  readonly returnOhms: Ohms;
}

/**
 * Volts lost between supply and train: its current through the feeder, the sum of all currents through the shared return.
 *
 * @param amps the train's own current
 * @param otherAmps what other trains send through the same return at that moment
 */
export function dropVolts(circuit: Circuit, amps: Amps, otherAmps: Amps = 0): Volts {
  return amps * circuit.feederOhms + (amps + otherAmps) * circuit.returnOhms;
}

/** Common practice, no source: lighter wire than AWG 18 on nothing above this. */
const LIGHT_WIRE_CAP: Amps = 3;
/** Largest overcurrent device by gauge, copper: NEC 240.4(D); the rows of AWG 18 and 16 carry further conditions there. */
const CAPS: readonly (readonly [awg: number, cap: Amps])[] = [
  [10, 30],
  [12, 20],
  [14, 15],
  [16, 10],
  [18, 7],
];

/** Common practice, no source: the lightest gauge for track power. */
export const LIGHTEST_TRACK_GAUGE = 16;
/** Share of the supply's volts, in percent, above which a drop is worth a warning: NEC 215.2(A) Note 2 recommends 5 % for feeder and branch together. */
export const DROP_LIMIT_PERCENT = 5;

/**
 * The largest breaker that a wire of this gauge may hang on.
 *
 * A gauge between two of the table has the cap of the lighter one.
 *
 * @returns amperes; null for gauges heavier than AWG 10, which the table does not cap
 */
export function breakerCap(awg: number): Amps | null {
  if (awg < 10) return null;
  return CAPS.find(([gauge]) => awg <= gauge)?.[1] ?? LIGHT_WIRE_CAP;
}

/** A gauge as the trade writes it: 1/0 to 4/0 for 0 to -3. */
export function gaugeText(awg: number): string {
  return awg <= 0 ? `AWG ${1 - awg}/0` : `AWG ${awg}`;
}
