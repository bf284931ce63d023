/** What the law's list has and no session records: written in beside the sheet by hand, and kept apart from the record. */
import { z } from '../zod.ts';

const line = z.string().max(200);

/** Items 1, 2, 3 and 4 of 49 CFR 228.17(a); weather may be left out (see docs/sources.md). */
const beside = z.strictObject({
  place: line.default(''),
  timetable: line.default(''),
  dispatchers: line.default(''),
  weather: line.default(''),
});
export type WrittenBeside = z.infer<typeof beside>;

/** How each line is called on the sheet. */
export const BESIDE_WORDS: readonly (readonly [keyof WrittenBeside, string])[] = [
  ['place', 'Place'],
  ['timetable', 'Timetable'],
  ['dispatchers', 'Dispatchers, and when each was on duty'],
  ['weather', 'Weather'],
];

/** The kind under which it is kept; its id is the evening's. */
export const BESIDE_KIND = 'train-sheet';

/** Reads what was kept; nothing, or what is none, is an empty one. */
export function writtenBeside(kept: unknown): WrittenBeside {
  const parsed = beside.safeParse(kept ?? {});
  return parsed.success ? parsed.data : beside.parse({});
}

/** A line for each that was written in. */
export const writtenLines = (written: WrittenBeside): readonly string[] =>
  BESIDE_WORDS.flatMap(([key, says]) => (written[key] === '' ? [] : [`${says}: ${written[key]}`]));
