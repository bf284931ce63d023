/** What may be typed for a reading or a wire, on the command line and on the screen alike. */
import type { NumberRange } from '../number-text.ts';

/** A meter may read nothing at all. */
export const READING: NumberRange = { least: 0, most: 1000, unit: 'volts' };
export const TOLERANCE: NumberRange = { least: 0, most: 50, unit: 'percent' };
export const GAUGE: NumberRange = {
  least: -3,
  most: 40,
  whole: true,
  unit: 'American Wire Gauge (-3 for 4/0)',
};
export const RUN: NumberRange = { least: 0, above: true, most: 10_000_000, unit: 'millimetres' };
export const CURRENT: NumberRange = { least: 0, above: true, most: 1000, unit: 'amperes' };
export const VOLTAGE: NumberRange = { least: 0, above: true, most: 1000, unit: 'volts' };
export const WARMTH: NumberRange = { least: -50, most: 200, unit: 'degrees Celsius' };
