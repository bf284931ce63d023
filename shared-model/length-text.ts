/** Lengths as people type and read them: millimetres to metres, feet and inches with fractions, or so many trains long. */
import type { Millimetres } from './units.ts';

/** Millimetres in each unit of length. International inch and foot: 25.4 mm and 304.8 mm exactly. */
export const MM_IN: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  '"': 25.4,
  ft: 304.8,
  "'": 304.8,
};

export type LengthSystem = 'metric' | 'imperial';

export type LengthRead =
  | { readonly ok: true; readonly mm: Millimetres }
  | { readonly ok: false; readonly says: string };

const NUMBER = String.raw`(\d+\s+\d+\/\d+|\d+\/\d+|\d*\.?\d+)`;
const PART = new RegExp(String.raw`^${NUMBER}\s*(mm|cm|m|in|ft|"|')?\s*`, 'i');
const TRAINS = new RegExp(String.raw`^${NUMBER}\s*trains?(?:[- ]lengths?)?$`, 'i');

/** A number, a fraction, or both: "10 1/2". */
function amount(text: string): number {
  const [whole, fraction] = text.includes(' ')
    ? text.split(/\s+/)
    : text.includes('/')
      ? ['0', text]
      : [text, '0'];
  const [over, under] = (fraction ?? '0').split('/').map(Number);
  return Number(whole) + (over ?? 0) / (under ?? 1);
}

const EXPECTED: Readonly<Record<LengthSystem, string>> = {
  metric: 'expected a length such as 2400, 2.4 m, 240 cm or 2 trains',
  imperial: 'expected a length such as 94 1/2, 7 ft 10 1/2 in, 2400 mm or 2 trains',
};

/**
 * Reads a length.
 *
 * @param system what a number without a unit is: millimetres or inches
 * @param trainMm the length of one train, for "2 trains"; null where none is known
 * @returns millimetres, more than 0 and at most 10 km; or what was expected
 */
export function readLength(text: string, system: LengthSystem, trainMm: Millimetres | null): LengthRead {
  const wrong = (says: string): LengthRead => ({ ok: false, says });
  const given = text.trim();
  const trains = TRAINS.exec(given)?.[1];
  if (trains !== undefined && trainMm === null)
    return wrong('there is no train yet to measure by: add one, or type a length');
  let mm = trains === undefined ? 0 : amount(trains) * (trainMm ?? 0);
  // A bare number is in the user's own unit; after feet it is inches: 7' 10.
  let bare: string | null = system === 'imperial' ? 'in' : 'mm';
  for (let rest = trains === undefined ? given : ''; rest !== ''; ) {
    const part: RegExpExecArray | null = PART.exec(rest);
    const unit: string | null = part?.[2]?.toLowerCase() ?? bare;
    if (part?.[1] === undefined || unit === null) return wrong(`${EXPECTED[system]}, not "${text}"`);
    mm += amount(part[1]) * (MM_IN[unit] ?? 1);
    bare = unit === 'ft' || unit === "'" ? 'in' : null;
    rest = rest.slice(part[0].length);
  }
  if (!(mm > 0 && mm <= 10_000_000))
    return wrong(`${EXPECTED[system]}; more than 0 and at most 10 km, not "${text}"`);
  return { ok: true, mm: Math.round(mm * 1000) / 1000 };
}

/** Parts of an inch to which a length is written. */
const PARTS_OF_INCH = 16;

/** Inches to the nearest sixteenth, as a fraction in its lowest terms: "10 1/2". */
function inchesText(sixteenths: number): string {
  const [whole, rest] = [Math.floor(sixteenths / PARTS_OF_INCH), sixteenths % PARTS_OF_INCH];
  if (rest === 0) return String(whole);
  let [over, under] = [rest, PARTS_OF_INCH];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}

/** A length as the user prefers it: whole millimetres, or feet and inches to a sixteenth. */
export function lengthText(mm: Millimetres, system: LengthSystem): string {
  if (system === 'metric') return `${Number(mm.toFixed(1))} mm`;
  const sixteenths = Math.round((mm / 25.4) * PARTS_OF_INCH);
  const feet = Math.floor(sixteenths / (12 * PARTS_OF_INCH));
  const inches = sixteenths % (12 * PARTS_OF_INCH);
  if (feet === 0) return `${inchesText(inches)} in`;
  return inches === 0 ? `${feet} ft` : `${feet} ft ${inchesText(inches)} in`;
}
