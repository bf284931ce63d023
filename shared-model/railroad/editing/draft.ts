/** A railroad as it is being drawn, and what every edit works with. */
import { LISTS, RAILROAD_FORMAT, type RailroadDocument } from '../document.ts';

/**
 * A document on the drawing board. It has the shape of a railroad document and every id once, but may be broken otherwise: a feeder on
 * an edge that is gone, a turnout of two edges, track that nothing feeds. It is kept like that, and never run.
 */
export type DraftDocument = RailroadDocument;

export type ListName = (typeof LISTS)[number];
export type ThingOf<List extends ListName> = DraftDocument[List][number];
export type Thing = ThingOf<ListName>;

/** The fields of a document that are no collection. */
export const FIELDS = [
  'name',
  'scaleRatio',
  'system',
  'commonBus',
  'railOhmsPerMetre',
  'masterSwitch',
] as const;
export type FieldName = (typeof FIELDS)[number];

/**
 * A sheet with nothing on it.
 *
 * @param name the railroad's name, at least one character
 */
export const blankSheet = (name: string): DraftDocument => ({
  format: RAILROAD_FORMAT,
  name,
  scaleRatio: 48,
  system: 'three-rail-ac',
  nodes: [],
  edges: [],
  supplies: [],
  throttles: [],
  selectors: [],
  toggles: [],
  blocks: [],
  trains: [],
  places: [],
  settings: [],
});

/** Every id that the draft uses, whatever it names. */
export const idsOf = (draft: DraftDocument): ReadonlySet<string> =>
  new Set(LISTS.flatMap((list) => draft[list].map((thing): string => thing.id)));

/**
 * Ids that nothing has yet.
 *
 * @param taken the ids in use
 * @param prefix what they begin with: "e" for edges, "B" for blocks
 * @param count how many
 * @returns the prefix with the lowest numbers that are free, from 1
 */
export function freshIds(taken: ReadonlySet<string>, prefix: string, count: number): readonly string[] {
  const fresh: string[] = [];
  for (let number = 1; fresh.length < count; number += 1)
    if (!taken.has(`${prefix}${number}`)) fresh.push(`${prefix}${number}`);
  return fresh;
}

/** One id that nothing in the draft has yet (see `freshIds`). */
export const freshId = (draft: DraftDocument, prefix: string): string =>
  freshIds(idsOf(draft), prefix, 1)[0] ?? prefix;
