/** Numbers as they come from the command line: text that has to be a plain decimal number within its range. */

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

function expected({ least, most, above, whole, unit }: NumberRange): string {
  return `${whole === true ? 'a whole number' : 'a number'} of ${unit}, ${above === true ? 'more than' : 'at least'} ${least} and at most ${most}`;
}

/**
 * Reads a number.
 *
 * @param option its name, for the sentence ("--volts-a")
 * @param text as given; undefined where the option is missing
 */
export function readNumber(option: string, text: string | undefined, range: NumberRange): NumberRead {
  if (text === undefined)
    return { ok: false, says: `${option}: expected ${expected(range)}, but it is missing` };
  const value = DECIMAL.test(text.trim()) ? Number(text) : Number.NaN;
  const fits =
    Number.isFinite(value) &&
    (range.above === true ? value > range.least : value >= range.least) &&
    value <= range.most &&
    (range.whole !== true || Number.isInteger(value));
  return fits
    ? { ok: true, value }
    : { ok: false, says: `${option}: expected ${expected(range)}, not "${text}"` };
}

type Wanted = readonly [option: string, text: string | undefined, range: NumberRange];

/** Reads several numbers; the first that is wrong is the answer. */
export function readNumbers<Name extends string>(
  wanted: Readonly<Record<Name, Wanted>>,
):
  | { readonly ok: true; readonly values: Readonly<Record<Name, number>> }
  | { readonly ok: false; readonly says: string } {
  const values: Partial<Record<Name, number>> = {};
  for (const name of Object.keys(wanted) as Name[]) {
    const [option, text, range]: Wanted = wanted[name];
    const read = readNumber(option, text, range);
    if (!read.ok) return read;
    values[name] = read.value;
  }
  return { ok: true, values: values as Record<Name, number> };
}
