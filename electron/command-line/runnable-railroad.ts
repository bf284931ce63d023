/** Reading a railroad file that is to be run: one whose references are broken is an input error, told with its place in the file. */
import { jsonPath } from '../../shared-model/malformed.ts';
import { LISTS, type RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import { inputError } from './answer.ts';
import { type Loaded, readRailroad } from './files.ts';

type Path = readonly PropertyKey[];

/** Where a value (or a key) stands first within a JSON value; null where it does not. */
function pathTo(wanted: string, value: unknown): Path | null {
  if (typeof value !== 'object' || value === null) return value === wanted ? [] : null;
  const parts: [PropertyKey, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  for (const [key, inner] of parts) {
    if (key === wanted) return [key];
    const path = key === 'id' ? null : pathTo(wanted, inner);
    if (path !== null) return [key, ...path];
  }
  return null;
}

/** The place of a finding in the document: that of the first thing it is about, and in it of the one other that this names. */
function placeOf(document: RailroadDocument, [first, second, ...more]: readonly string[]): string {
  for (const list of LISTS) {
    const index = document[list].findIndex(({ id }) => id === first);
    if (index < 0) continue;
    const inner = second === undefined || more.length > 0 ? null : pathTo(second, document[list][index]);
    return jsonPath([list, index, ...(inner ?? [])]);
  }
  return '$';
}

const startedSmall = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** Reads a railroad that can be run; else the answer that says where the file is wrong, and what was expected there. */
export function readRunnableRailroad(path: string): Loaded<Railroad> {
  const document = readRailroad(path);
  if (!document.ok) return document;
  const error = whyNotRunnable(document.value);
  if (error === null) return { ok: true, value: indexRailroad(document.value) };
  const { code, about, says, remedy } = error;
  const place = placeOf(document.value, about);
  const line = `${path}: ${place}: ${code}: ${says.replace(/\.$/, '')}; expected: ${startedSmall(remedy)}`;
  return { ok: false, answer: inputError(line) };
}
