/**
 * The entry line: `line = train "to" dest ["by" blocks] ["over"] ["joining" train] | train report | thing position | word …`.
 * The first word decides; a number is a train first, a block after to, in, clear, at.
 */
import type { BlockId, TrainId } from '../../../shared-model/ids.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { expects, type Meaning } from './meaning.ts';
import { type Found, find, type Names, namesOf } from './names.ts';
import { readThingLine } from './thing-lines.ts';
import { readTrainLine } from './train-lines.ts';
import { readWordLine } from './word-lines.ts';

/** What the readers of lines look at. */
export interface Reading {
  readonly railroad: Railroad;
  readonly state: SessionState;
  readonly names: Names;
}

/** The meaning of one thing found, or of there being none or several. */
export function withFound<Id extends string>(
  found: Found<Id>,
  what: string,
  typed: string,
  then: (id: Id) => Meaning,
): Meaning {
  if (found.kind === 'one') return then(found.id);
  if (found.kind === 'several') return { kind: 'several', list: found.list };
  return expects(
    typed.trim() === ''
      ? `Expected ${what}.`
      : `No ${what.replace(/^an? /, '')} is called "${typed.trim()}".`,
  );
}

/** Several blocks, parted by commas. */
export function withBlocks(
  { names }: Reading,
  typed: string,
  then: (blocks: readonly BlockId[]) => Meaning,
): Meaning {
  const ids: BlockId[] = [];
  for (const part of typed.split(',')) {
    const found = find(names.blocks, part);
    if (found.kind !== 'one') return withFound(found, 'a block', part, () => expects(''));
    ids.push(found.id);
  }
  return then(ids);
}

/** A destination: a place by its whole name first, then blocks, then both by what they begin with. */
export function findDestination({ names }: Reading, typed: string): Found<string> {
  const word = typed.toLowerCase().trim();
  const place = names.places.find(({ words }) => words.includes(word));
  return place === undefined
    ? find<string>([...names.blocks, ...names.places], typed)
    : { kind: 'one', id: place.id };
}

/** The train that a line begins with, and what follows: names may have several words, the longest that fits is taken. */
function leadingTrain(
  names: Names,
  words: readonly string[],
): { readonly found: Found<TrainId>; readonly rest: readonly string[] } | null {
  for (let count = Math.min(3, words.length); count >= 1; count -= 1) {
    const found = find(names.trains, words.slice(0, count).join(' '));
    const exact = names.trains.some(({ words: known }) =>
      known.includes(words.slice(0, count).join(' ').toLowerCase()),
    );
    if (exact && found.kind !== 'none') return { found, rest: words.slice(count) };
  }
  return null;
}

/**
 * Reads a line.
 *
 * @returns what Enter would do, a list where several things fit, or a sentence with what was expected
 */
export function readLine(railroad: Railroad, state: SessionState, line: string): Meaning {
  const words = line
    .trim()
    .split(/\s+/)
    .filter((word) => word !== '');
  const [first, ...rest] = words;
  if (first === undefined) return expects('Type a train, a thing, or a word: 7 to quarry · k4 2 · stop …');
  const reading: Reading = { railroad, state, names: namesOf(railroad, state) };
  const word = readWordLine(reading, first.toLowerCase(), rest);
  if (word !== null) return word;
  const train = leadingTrain(reading.names, words);
  if (train !== null)
    return withFound(train.found, 'a train', first, (id) => readTrainLine(reading, id, train.rest, first));
  const thing = readThingLine(reading, first, rest);
  if (thing !== null) return thing;
  const begun = find(reading.names.trains, first);
  if (begun.kind === 'one') return readTrainLine(reading, begun.id, rest, first);
  if (begun.kind === 'several') return { kind: 'several', list: begun.list };
  return expects(`"${first}" is no train, knob, turnout, block or word known here.`);
}
