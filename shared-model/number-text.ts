/** Numbers as people type them: text that has to be a plain decimal number within its range. */

export interface NumberRange {
  readonly least: number;
  readonly most: number;
  /** The least itself is not allowed. */
  readonly above?: boolean;
  readonly whole?: boolean;
  /** What is counted, for the sentence: "volts", "millimetres". */
  readonly unit: string;
}

export type NumberRead =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly says: string };

const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** What a range wants, in words that follow "expected". */
export function expectedNumber({ least, most, above, whole, unit }: NumberRange): string {
  return `${whole === true ? 'a whole number' : 'a number'} of ${unit}, ${above === true ? 'more than' : 'at least'} ${least} and at most ${most}`;
}

/**
 * Reads a number.
 *
 * @returns the number; or what was expected, in words that begin with "expected"
 */
export function parseNumberText(text: string, range: NumberRange): NumberRead {
  const value = DECIMAL.test(text.trim()) ? Number(text) : Number.NaN;
  const fits =
    Number.isFinite(value) &&
    (range.above === true ? value > range.least : value >= range.least) &&
    value <= range.most &&
    (range.whole !== true || Number.isInteger(value));
  return fits ? { ok: true, value } : { ok: false, says: `expected ${expectedNumber(range)}, not "${text}"` };
}
