/** Numbers given as options, each read by its range; the first that is wrong is told with its option. */
import {
  expectedNumber,
  type NumberRange,
  type NumberRead,
  parseNumberText,
} from '../../shared-model/number-text.ts';

/**
 * Reads one option.
 *
 * @param option its name, for the sentence ("--volts-a")
 * @param text as given; undefined where the option is missing
 */
export function readNumber(option: string, text: string | undefined, range: NumberRange): NumberRead {
  if (text === undefined)
    return { ok: false, says: `${option}: expected ${expectedNumber(range)}, but it is missing` };
  const read = parseNumberText(text, range);
  return read.ok ? read : { ok: false, says: `${option}: ${read.says}` };
}

type Wanted = readonly [option: string, text: string | undefined, range: NumberRange];

/** Reads several options. */
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
