/** A railroad document up to the names of its ids, the order of its lists, and how it is drawn: two documents of one railroad give the same text. */
import { LISTS, type RailroadDocument } from '../../shared-model/railroad/document.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [field: string]: Json };

/** Only for drawing. */
const DRAWN = new Set(['at', 'alsoAt', 'shape']);

/** Field by field, with ids written as what is known of their things so far. */
function written(value: unknown, labels: ReadonlyMap<string, string>, field: string): Json {
  if (typeof value === 'string') return field === 'name' ? value : (labels.get(value) ?? value);
  if (Array.isArray(value)) {
    const items = value.map((item) => written(item, labels, field));
    // The order of a dial is its own; elsewhere (ends of an edge, ways, feeders, spots of a place) it says nothing.
    return field === 'positions' || field === 'wire'
      ? items
      : [...items].sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  }
  if (typeof value !== 'object' || value === null) return value as Json;
  const isPlaceSpot = 'toward' in value;
  const entries = Object.entries(value)
    .filter(([name, part]) => part !== undefined && (isPlaceSpot || !DRAWN.has(name)))
    .map(([name, part]) => [labels.get(name) ?? name, written(part, labels, name)] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries);
}

/** A short name for a text; equal texts have equal names. */
function named(text: string, names: Map<string, string>): string {
  const before = names.get(text);
  if (before !== undefined) return before;
  const name = text.length > 400 ? `${text.slice(0, 200)}…${hash(text)}` : text;
  names.set(text, name);
  return name;
}

function hash(text: string): string {
  let [one, other] = [5381, 52711];
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    one = (Math.imul(one, 33) ^ code) >>> 0;
    other = (Math.imul(other, 31) + code) >>> 0;
  }
  return `${one.toString(36)}${other.toString(36)}`;
}

/**
 * The canonical text of a document: each id is replaced by what is known of its thing and, round by round, of its neighbours
 * (colour refinement), places' `at` kept and coordinates left out.
 */
export function canonicalRailroad(document: RailroadDocument): string {
  const names = new Map<string, string>();
  let labels = new Map<string, string>(
    LISTS.flatMap((list) => document[list].map(({ id }) => [id as string, list] as const)),
  );
  for (let round = 0; round < 6; round += 1) {
    const next = new Map<string, string>();
    for (const list of LISTS)
      for (const thing of document[list]) {
        const { id, ...rest } = thing;
        const users = LISTS.flatMap((other): readonly { readonly id: string }[] => document[other])
          .filter((one) => one.id !== id && JSON.stringify(one).includes(JSON.stringify(id)))
          .map((one) => labels.get(one.id) ?? '')
          .sort();
        next.set(
          id,
          named(hash(JSON.stringify([list, written(spotless(list, rest), labels, ''), users])), names),
        );
      }
    labels = next;
  }
  const lists = LISTS.map((list) => [
    list,
    document[list]
      .map(({ id, ...rest }) => JSON.stringify([labels.get(id), written(spotless(list, rest), labels, '')]))
      .sort(),
  ]);
  const fields = Object.entries(document)
    .filter(([field, value]) => !(LISTS as readonly string[]).includes(field) && value !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify({ fields, lists }, null, 1);
}

/** A place's `at` is its tracks; everywhere else `at` is a spot of the drawing. */
function spotless(list: string, thing: object): object {
  if (list !== 'places') return thing;
  const { at, ...rest } = thing as { at: unknown };
  return { ...rest, tracks: at };
}
