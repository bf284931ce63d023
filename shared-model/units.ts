/** Quantities that must not be mixed up, and the few conversions of the trade. */

/** Length on the model, in millimetres. */
export type Millimetres = number;
/** Seconds since the session was opened (in events), or a duration. */
export type Seconds = number;
export type Amps = number;
/** Volts, root mean square. */
export type Volts = number;
export type Ohms = number;
export type Degrees = number;

/**
 * Speed on the model of a train that runs at a scale speed.
 *
 * @param mph scale miles per hour
 * @param scaleRatio N of 1:N
 * @returns millimetres per second: v × 447.04 / N (1 mph = 0.44704 m/s exactly, by definition of the international mile)
 */
export function modelSpeed(mph: number, scaleRatio: number): number {
  return (mph * 447.04) / scaleRatio;
}

/** Millimetres on the model in one scale mile: 1,609,344 mm / N. */
export function scaleMileMm(scaleRatio: number): Millimetres {
  return 1_609_344 / scaleRatio;
}
