/** Which things a typed word may mean: whole marks and names first, then numbers, beginnings, and letters in order. Never a guess among equals. */
import { small, type Thing, type ThingKind } from './things.ts';

/** How far a word is from a thing: 0 is the thing itself. Only the nearest are taken. */
export type Distance = 0 | 1 | 2 | 3 | 4;

export interface Match {
  readonly thing: Thing;
  readonly distance: Distance;
}

/** Kinds that are only ever meant by their whole mark: there are too many of them, and nobody names them. */
const WHOLE_ONLY: readonly ThingKind[] = ['edge', 'node', 'authority'];

/** The letters of the word stand in the name in that order, beginning with its first: "qry" is Quarry. */
function lettersInOrder(word: string, name: string): boolean {
  if (word.length < 2 || word[0] !== name[0]) return false;
  let at = 0;
  for (const letter of word) {
    at = name.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}

function distanceTo({ kind, marks, names, number }: Thing, word: string): Distance | null {
  if (/^\d+$/.test(word)) return marks.includes(word) || number === word.replace(/^0+/, '') ? 1 : null;
  if (marks.includes(word) || names.includes(word)) return 0;
  if (WHOLE_ONLY.includes(kind)) return null;
  if (names.some((name) => name.startsWith(word))) return 2;
  if (names.some((name) => name.split(/[\s-]/).some((part) => part.startsWith(word)))) return 3;
  return names.some((name) => lettersInOrder(word, name)) ? 4 : null;
}

/** A bare number is a train before it is anything else. */
const trainsFirst = (found: readonly Match[]): readonly Match[] => {
  const trains = found.filter(({ thing }) => thing.kind === 'train');
  return trains.length > 0 ? trains : found;
};

/** A block that is called like a place is meant by its number: its name is the place's. */
const placesFirst = (found: readonly Match[]): readonly Match[] => {
  const placeNames = found.flatMap(({ thing }) => (thing.kind === 'place' ? thing.names : []));
  return found.filter(
    ({ thing }) => thing.kind !== 'block' || !thing.names.some((name) => placeNames.includes(name)),
  );
};

/**
 * The things that a word may mean, all of them equally near.
 *
 * @param typed a mark, a name, a number, or the beginning of a name; words of a name parted by single spaces
 * @param kinds what may be meant here
 */
export function matches(
  things: readonly Thing[],
  typed: string,
  kinds: readonly ThingKind[],
): readonly Match[] {
  const word = small(typed);
  if (word === '') return [];
  const near = things
    .filter(({ kind }) => kinds.includes(kind))
    .flatMap((thing): readonly Match[] => {
      const distance = distanceTo(thing, word);
      return distance === null ? [] : [{ thing, distance }];
    });
  const nearest = Math.min(...near.map(({ distance }) => distance));
  const equals = near.filter(({ distance }) => distance === nearest);
  return /^\d+$/.test(word) ? trainsFirst(equals) : placesFirst(equals);
}

/** Everything that a word half typed may become, the nearest first. */
export function completionsOf(
  things: readonly Thing[],
  typed: string,
  kinds: readonly ThingKind[],
): readonly Thing[] {
  const word = small(typed);
  const offered = things.filter(({ kind }) => kinds.includes(kind) && !WHOLE_ONLY.includes(kind));
  if (word === '') return offered;
  const digits = /^\d+$/.test(word);
  return offered
    .flatMap((thing) => {
      const begun =
        thing.marks.some((mark) => mark.startsWith(word)) ||
        (digits && thing.number?.startsWith(word) === true);
      const distance = distanceTo(thing, word) ?? (begun ? 2 : null);
      return distance === null ? [] : [{ thing, distance }];
    })
    .toSorted((a, b) => a.distance - b.distance)
    .map(({ thing }) => thing);
}
