/** A length on the model as the user prefers it: feet and inches, or metres. */
import type { Millimetres } from '../units.ts';
import type { Lengths } from './names.ts';

/** An international inch is 25.4 mm exactly. */
const INCH_MM = 25.4;

/** @returns "4 ft 7 in", or "1.40 m" */
export function modelLengthText(lengthMm: Millimetres, lengths: Lengths): string {
  if (lengths === 'metric') return `${(lengthMm / 1000).toFixed(2)} m`;
  const inches = Math.round(lengthMm / INCH_MM);
  return `${Math.floor(inches / 12)} ft ${inches % 12} in`;
}
