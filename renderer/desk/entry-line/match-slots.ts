/** Reads the words of a line into the slots of a form: every way that fits, and where the line stops fitting, what was expected there. */
import { MM_IN } from '../../../shared-model/length-text.ts';
import { matches } from './match.ts';
import { Said } from './said.ts';
import type { Slot, Unit } from './slots.ts';
import { small, type Thing } from './things.ts';

/** The line and its words; a comma is a word of its own. */
export interface Words {
  readonly line: string;
  readonly tokens: readonly string[];
  /** Where each word begins in the line. */
  readonly starts: readonly number[];
}

export function wordsOf(line: string): Words {
  const found = [...line.matchAll(/,|[^\s,]+/g)];
  return { line, tokens: found.map(([token]) => token), starts: found.map(({ index }) => index) };
}

/** Where reading stopped: at which word, and what could have stood there. */
export interface Stuck {
  readonly at: number;
  readonly slot: Slot | null;
}

export interface Fits {
  readonly whole: readonly Said[];
  readonly stuck: readonly Stuck[];
}

interface Way {
  readonly said: Said;
  /** Index of the next word. */
  readonly at: number;
}

const LONGEST_NAME_WORDS = 4;

function numberOf(token: string, unit: Unit): number | null {
  if (unit === 'mm') {
    const [, digits, letters] = /^(\d*\.?\d+)(mm|cm|m|in|ft|"|')?$/i.exec(token) ?? [];
    return digits === undefined ? null : Number(digits) * (MM_IN[letters?.toLowerCase() ?? 'mm'] ?? 1);
  }
  const plain = /^(\d*\.?\d+)(?:v|a|:1)?$/i.exec(token)?.[1];
  return plain === undefined ? null : Number(plain);
}

function minutesOf(token: string): number | null {
  const [, hours, minutes] = /^(\d{1,2})[:.](\d{2})$/.exec(token) ?? [];
  const all = Number(hours) * 60 + Number(minutes);
  return Number(minutes) < 60 && all < 1440 ? all : null;
}

interface Reader extends Words {
  readonly things: readonly Thing[];
  readonly stuck: Stuck[];
}

/** The ways to read a name from a place in the line on, longest first. */
function namesAt(reader: Reader, { said, at }: Way, slot: Extract<Slot, { is: 'thing' }>): readonly Way[] {
  const found: Way[] = [];
  for (let count = 1; count <= LONGEST_NAME_WORDS && at + count <= reader.tokens.length; count += 1) {
    const typed = reader.tokens.slice(at, at + count);
    if (typed.includes(',')) break;
    for (const { thing, distance } of matches(reader.things, typed.join(' '), slot.kinds))
      if (slot.marksOnly !== true || distance === 0)
        found.push({ said: said.with(slot.as, thing, distance), at: at + count });
  }
  return found;
}

function listAt(reader: Reader, start: Way, slot: Extract<Slot, { is: 'things' }>): readonly Way[] {
  const one: Slot = { is: 'thing', as: slot.as, kinds: slot.kinds, what: slot.what };
  const more = (before: readonly Thing[], from: Way): readonly Way[] =>
    readSlot(reader, from, one).flatMap((next): readonly Way[] => {
      const list = [...before, next.said.thing(slot.as)];
      const ended: Way = { said: next.said.with(slot.as, list), at: next.at };
      return reader.tokens[next.at] === ',' ? more(list, { said: next.said, at: next.at + 1 }) : [ended];
    });
  return more([], start);
}

/** A place on a dial to which nothing is wired: it may be asked for, and is refused. */
export const NO_POSITION = '-';

/** A dial's position: "off", "0", a cab's number, or the cab by its other names. */
function positionAt(
  reader: Reader,
  { said, at }: Way,
  slot: Extract<Slot, { is: 'position' }>,
): readonly Way[] {
  const token = small(reader.tokens[at] ?? '');
  if (token === 'off' || token === '0') return [{ said: said.with(slot.as, 'off'), at: at + 1 }];
  if (token === NO_POSITION) return [{ said: said.with(slot.as, NO_POSITION), at: at + 1 }];
  const byNumber = /^\d+$/.test(token) ? matches(reader.things, `c${token}`, ['cab']) : [];
  const found = byNumber.length > 0 ? byNumber : matches(reader.things, token, ['cab']);
  return found.map(({ thing, distance }) => ({ said: said.with(slot.as, thing.id, distance), at: at + 1 }));
}

function answerAt(
  { tokens }: Reader,
  { said, at }: Way,
  slot: Extract<Slot, { is: 'answer' }>,
): readonly Way[] {
  const token = small(tokens[at] ?? '');
  const exact = Object.keys(slot.answers).filter((answer) => slot.answers[answer]?.includes(token));
  const begun = Object.keys(slot.answers).filter((answer) =>
    slot.answers[answer]?.some((said) => said.startsWith(token)),
  );
  return (exact.length > 0 ? exact : begun).map((answer) => ({
    said: said.with(slot.as, answer),
    at: at + 1,
  }));
}

/** A word of the grammar, whole or begun: a begun one is farther than any name. */
const BEGUN = 5;
/** The first word of a line decides what is meant by the rest: one letter is too little for it. */
const LEAST_FIRST = 2;
const wordAt = (words: readonly string[], token: string, least: number): readonly number[] =>
  words.includes(token)
    ? [0]
    : token.length >= least && words.some((word) => word.startsWith(token))
      ? [BEGUN]
      : [];

/** Whether the first word of a line is a word of the grammar or begins one. */
export const meansWord = (words: readonly string[], token: string): boolean =>
  wordAt(words, token, LEAST_FIRST).length > 0;

/** How many letters of a word are enough where it stands. */
const leastOf = ({ whole }: Extract<Slot, { is: 'word' }>, at: number): number =>
  whole === true ? Number.POSITIVE_INFINITY : at === 0 ? LEAST_FIRST : 1;

/** Free words, as typed. The fewer of them the nearer, so that a word of the grammar wins. */
function textsAt({ line, tokens, starts }: Reader, { said, at }: Way, as: string): readonly Way[] {
  const from = starts[at] ?? 0;
  return tokens.slice(at).map((token, index) => {
    const end = (starts[at + index] ?? 0) + token.length;
    return { said: said.with(as, line.slice(from, end), index + 1), at: at + index + 1 };
  });
}

/** Every way to read one slot from a place in the line on. */
function waysAt(reader: Reader, from: Way, slot: Exclude<Slot, { is: 'options' }>): readonly Way[] {
  const { said, at } = from;
  const token = reader.tokens[at];
  if (token === undefined) return [];
  const took = (value: string | number | null): readonly Way[] =>
    'as' in slot && value !== null ? [{ said: said.with(slot.as, value), at: at + 1 }] : [];
  switch (slot.is) {
    case 'word':
      return wordAt(slot.words, small(token), leastOf(slot, at)).map((distance) => ({
        said: said.farther(distance),
        at: at + 1,
      }));
    case 'thing':
      return namesAt(reader, from, slot);
    case 'things':
      return listAt(reader, from, slot);
    case 'position':
      return positionAt(reader, from, slot);
    case 'answer':
      return answerAt(reader, from, slot);
    case 'number':
      return took(numberOf(token, slot.unit));
    case 'time':
      return took(minutesOf(token));
    case 'name':
      return took(token === ',' ? null : token);
    case 'text':
      return textsAt(reader, from, slot.as);
  }
}

function readSlot(reader: Reader, from: Way, slot: Exclude<Slot, { is: 'options' }>): readonly Way[] {
  const ways = waysAt(reader, from, slot);
  if (ways.length === 0) reader.stuck.push({ at: from.at, slot });
  return ways;
}

function readOptions(reader: Reader, from: Way, left: readonly (readonly Slot[])[]): readonly Way[] {
  const taken = left.flatMap((option) =>
    readAll(reader, from, option).flatMap((after) =>
      readOptions(
        reader,
        after,
        left.filter((other) => other !== option),
      ),
    ),
  );
  return [from, ...taken];
}

function readAll(reader: Reader, from: Way, slots: readonly Slot[]): readonly Way[] {
  return slots.reduce<readonly Way[]>(
    (ways, slot) =>
      ways.flatMap((way) =>
        slot.is === 'options' ? readOptions(reader, way, slot.options) : readSlot(reader, way, slot),
      ),
    [from],
  );
}

/**
 * @param slots a form
 * @returns every reading of the whole line, and where those that are none stopped
 */
export function fitSlots(things: readonly Thing[], words: Words, slots: readonly Slot[]): Fits {
  const reader: Reader = { ...words, things, stuck: [] };
  const { tokens } = words;
  const ways = readAll(reader, { said: new Said(), at: 0 }, slots);
  for (const { at } of ways) if (at < tokens.length) reader.stuck.push({ at, slot: null });
  return {
    whole: ways.filter(({ at }) => at === tokens.length).map(({ said }) => said),
    stuck: reader.stuck,
  };
}
