/** Parsing the text of a railroad file: the one door for files, imports and the command line. */
import { everyMalformed, type Malformed, parseJson, parseValue, unkeepable } from '../malformed.ts';
import { type RailroadDocument, railroadDocument } from './document.ts';

export type RailroadText =
  | { readonly ok: true; readonly document: RailroadDocument }
  | ({ readonly ok: false } & Malformed);

/** Most characters that a railroad file may have: some ten times what 400 blocks with all their wiring take. */
export const MOST_RAILROAD_CHARACTERS = 5_000_000;

const wrong = (malformed: Malformed): RailroadText => ({ ok: false, ...malformed });

/**
 * Parses the text of a railroad file. References may still be broken in what it gives; the audit tells those.
 *
 * @returns the document; else the first place that is wrong (a JSON path, or line and column where it is no JSON) and what was
 *   expected there
 */
export function parseRailroadText(text: string): RailroadText {
  if (text.length > MOST_RAILROAD_CHARACTERS)
    return wrong({
      path: '$',
      says: `expected at most ${MOST_RAILROAD_CHARACTERS} characters, but the text has ${text.length}`,
    });
  const json = parseJson(text);
  if (!json.ok) return wrong(json.malformed);
  const bad = unkeepable(json.value);
  if (bad !== null) return wrong(bad);
  const parsed = parseValue(railroadDocument, json.value);
  return parsed.ok ? { ok: true, document: parsed.value } : wrong(parsed.malformed);
}

/**
 * Everything that is wrong with the text of a railroad file, for somebody who mends it by hand.
 *
 * @returns the places in the file's order, as many as the schema tells at once; none when it can be imported
 */
export function railroadTextProblems(text: string): readonly Malformed[] {
  const first = parseRailroadText(text);
  if (first.ok) return [];
  const json = parseJson(text);
  const checked = json.ok && unkeepable(json.value) === null ? railroadDocument.safeParse(json.value) : null;
  return checked?.error === undefined
    ? [{ path: first.path, says: first.says }]
    : everyMalformed(checked.error);
}
