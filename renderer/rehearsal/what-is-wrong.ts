/** Everything that is wrong with how trains and knobs stand in a rehearsal, not the first of it alone; and what stands there without it. */
import type { BlockId, EdgeId } from '../../shared-model/ids.ts';
import type { Malformed } from '../../shared-model/malformed.ts';
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { placeOf, withoutKnob } from './knobs-in-the-way.ts';
import { roomBehind } from './room.ts';
import { blockName, lengthWords, named, trainWords } from './words.ts';

export interface Wrong {
  /** What is wrong with each train, by its row. */
  readonly rows: ReadonlyMap<number, Malformed>;
  /** A knob that stands against a train, or what is wrong with all of it. */
  readonly rest: Malformed | null;
  /** The trains that nothing is wrong with; null where even so it cannot be read. */
  readonly standing: Situation | null;
}

export function wrongIn(railroad: Railroad, json: SituationJson): Wrong {
  const rows = new Map<number, Malformed>();
  let rest: Malformed | null = null;
  let left = json.trains.map((train, index) => ({ train, index }));
  let knobs = json;
  // Each round takes a train or a knob away: it comes to an end.
  for (;;) {
    const parsed = parseSituation(railroad, { ...knobs, trains: left.map(({ train }) => train) });
    if (parsed.ok) return { rows, rest, standing: parsed.value };
    const { row, knob } = placeOf(parsed.malformed);
    const about = row === null ? undefined : left[row];
    if (about !== undefined) {
      rows.set(about.index, parsed.malformed);
      left = left.filter((one) => one !== about);
      continue;
    }
    rest ??= parsed.malformed;
    const without = knob === null ? knobs : withoutKnob(knobs, knob);
    if (JSON.stringify(without) === JSON.stringify(knobs)) return { rows, rest, standing: null };
    knobs = without;
  }
}

/** The blocks in which the heads of wrong trains are said to be, to be marked on the board. */
export const wrongBlocks = (railroad: Railroad, json: SituationJson, { rows }: Wrong): readonly BlockId[] =>
  [...rows.keys()].flatMap((row) => railroad.blockOfEdge.get(json.trains[row]?.edge as EdgeId) ?? []);

const cabWords = (railroad: Railroad, id: string): string =>
  railroad.document.throttles.find((throttle) => throttle.id === id)?.name ?? id;

/** The parser's sentence with the owner's names: what is expected, as a sentence of its own. */
const asParsed = (railroad: Railroad, { says }: Malformed): string =>
  `${named(railroad, says).replace(/^./, (letter) => letter.toUpperCase())}.`;

/** What is wrong with a train, in the owner's words and units. */
export function rowWords(
  railroad: Railroad,
  json: SituationJson,
  row: number,
  malformed: Malformed,
  lengths: 'metric' | 'imperial',
): string {
  const train = json.trains[row];
  const [, one = '', other = '', block = ''] =
    /^expected one train in a block, but (\S+) and (\S+) are both in (\S+)/.exec(malformed.says) ?? [];
  if (block !== '')
    return `${trainWords(railroad, one)} and ${trainWords(railroad, other)} are both in ${blockName(railroad, block)}: only one can be.`;
  if (train !== undefined && malformed.says.startsWith('expected room')) {
    const length = railroad.document.trains.find(({ id }) => id === train.train)?.length ?? 0;
    return `${trainWords(railroad, train.train)} does not fit there: it is ${lengthWords(length, lengths)} long, and behind its head are ${lengthWords(roomBehind(railroad, json, train), lengths)} of track as the turnouts stand.`;
  }
  const [, shares = ''] = /^expected one train a cab .*, but (\S+) has cab/.exec(malformed.says) ?? [];
  if (train !== undefined && shares !== '')
    return `${trainWords(railroad, shares)} has ${cabWords(railroad, train.cab)} too: one cab runs one train. Give it another cab, or let one of them stay where it is.`;
  return asParsed(railroad, malformed);
}

/** What is wrong beside the trains: a knob that stands otherwise than the train on it needs. */
export function restWords(railroad: Railroad, malformed: Malformed): string {
  const { knob } = placeOf(malformed);
  const [, train = '', block = '', stands = ''] =
    /since (\S+) stands in (\S+?),? (?:not "(.*)"|and is to move)$/.exec(malformed.says) ?? [];
  if (knob === null || train === '') return asParsed(railroad, malformed);
  const name = named(railroad, knob).replace(/^./, (letter) => letter.toUpperCase());
  const position = stands === '' || stands === 'off' ? 'is off' : `stands at ${cabWords(railroad, stands)}`;
  return `${name} ${position}, but ${trainWords(railroad, train)} is in ${blockName(railroad, block)}.`;
}
