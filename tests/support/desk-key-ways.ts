/** The ways that the Desk has to say an input, by the functions that read its keys, and the one of the fewest keys. */
import { RECENT_EVENTS } from '../../renderer/console/followed-evening.ts';
import { doingOfAct, grantTo } from '../../renderer/desk/desk-acts.ts';
import { readTyped } from '../../renderer/desk/entry-line/read-typed.ts';
import type { LineContext } from '../../renderer/desk/entry-line/reading.ts';
import { type Doing, firstPick, type Option } from '../../renderer/desk/option.ts';
import { waysOut } from '../../renderer/desk/ways-out.ts';
import { ACT_KEYS, type ActName } from '../../renderer/keys/acts.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { Evening } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { linesFor } from './desk-lines.ts';

/** A way to say something: the keys, and what they send. */
export interface Candidate {
  readonly strokes: readonly string[];
  readonly looks: number | null;
  readonly items: readonly BatchItem[];
  /** What is put off after it, if its keys change that. */
  readonly later?: readonly string[];
}

/** Strokes, and a little less for what says more at once. */
const costOf = ({ strokes, items }: Candidate): number => strokes.length - items.length / 1000;

const NUMBERS = [1, 2, 3, 4, 5, 6] as const;
const THROWS: readonly ActName[] = ['throw-done', 'cab-throws-done'];
const SHOWN: readonly ActName[] = ['as-shown'];
const OTHERS: readonly ActName[] = ['clear', 'alarm-seen', 'alarm-mended', 'retract', ...THROWS];

const WAYS_ON: readonly ActName[] = ['grant-ask', 'grant-far'];
const MOST_PUT_OFF = 2;

/** The act keys that may say an input. */
const ACTS: Partial<Record<SessionInput['do'], readonly ActName[]>> = {
  'request-move': ['grant-ask', 'grant-far', ...NUMBERS.map((n): ActName => `advance-${n}`)],
  acknowledge: ['read-back', 'read-back-and-throws'],
  advance: NUMBERS.map((n): ActName => `advance-${n}`),
  call: NUMBERS.map((n): ActName => `call-${n}`),
  'turn-selector': THROWS,
  'throw-turnout': THROWS,
  'set-toggle': THROWS,
  'handle-at-zero': THROWS,
  'train-at': SHOWN,
  'selector-stands-at': SHOWN,
  'turnout-stands-at': [...SHOWN, 'alarm-mended'],
  'toggle-stands-at': SHOWN,
};

const strokesOfAct = (act: ActName): readonly string[] => {
  const keys = ACT_KEYS.find((row) => row.act === act);
  const stroke = keys?.keypad ?? keys?.other ?? '';
  return act === 'retract' ? [stroke, stroke] : [stroke];
};

const sorted = (value: object): string =>
  JSON.stringify(Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)));
/** The same plain data. */
export const same = (one: object, other: object): boolean => sorted(one) === sorted(other);

const itemsOf = (doing: Doing): readonly BatchItem[] =>
  doing.kind === 'do' && doing.option.does.kind === 'send' ? doing.option.does.items : [];
/** What the screen has of an evening: the newest events alone. */
const contextOf = ({ railroad, state, events }: Evening): LineContext => ({
  railroad,
  state,
  recent: events.slice(-RECENT_EVENTS),
});

/** What an act key says now, or after what is offered first was put off; what was put off stays so. */
function byKey(evening: Evening, act: ActName, later: readonly string[]): readonly Candidate[] {
  const context = contextOf(evening);
  const candidates: Candidate[] = [];
  let put = later;
  for (let presses = 0; presses <= MOST_PUT_OFF; presses += 1) {
    candidates.push({
      strokes: [...Array<ActName>(presses).fill('throw-later').flatMap(strokesOfAct), ...strokesOfAct(act)],
      looks: null,
      items: itemsOf(doingOfAct(act, context, put)),
      later: put,
    });
    const off = WAYS_ON.includes(act) ? doingOfAct('throw-later', context, put) : null;
    if (off?.kind !== 'later') break;
    put = [...put.filter((key) => key !== off.key), off.key];
  }
  return candidates;
}

/** Something to choose from in the band: arrows to it, the shorter way round, then Enter. */
function byArrows(options: readonly Option[], from: number | null): readonly Candidate[] {
  const first = from ?? firstPick(options) - 1;
  return options.map(({ does }, index) => {
    const right = (index - first + options.length) % options.length;
    const left = (from === null ? options.length : from + options.length) - index;
    const arrows =
      right <= left ? Array<string>(right).fill('ArrowRight') : Array<string>(left).fill('ArrowLeft');
    return {
      strokes: [...arrows, 'Enter'],
      looks: 0,
      items: does.kind === 'send' ? does.items : [],
    };
  });
}

/** The ways out that the band offers after a refusal. */
const byBand = (evening: Evening, refused: SessionEvent | null): readonly Candidate[] =>
  refused === null ? [] : byArrows(waysOut(contextOf(evening), refused, evening.state.at), null);

/** An act that leaves a choice: its key, then the arrows from the first. */
function byChoice(evening: Evening, act: ActName, later: readonly string[]): readonly Candidate[] {
  const doing = doingOfAct(act, contextOf(evening), later);
  if (doing.kind !== 'choose') return [];
  return byArrows(doing.options, 0).map((way) => ({
    ...way,
    looks: 1,
    strokes: [...strokesOfAct(act), ...way.strokes],
  }));
}

/** The train in the line, then the key for its ask or its way on, or for as far as it is free. */
function byName(evening: Evening, wanted: SessionInput): readonly Candidate[] {
  if (wanted.do !== 'request-move') return [];
  const number = /\d+/.exec(evening.state.trains[wanted.train]?.name ?? '')?.[0] ?? '';
  return [false, true].map((far) => ({
    strokes: [...number, far ? 'F11' : 'NumpadAdd'],
    looks: null,
    items: itemsOf(grantTo(contextOf(evening), wanted.train, far)),
  }));
}

/** What a line means: one thing, or several of which one is picked. */
function byReading(evening: Evening, line: string): readonly Candidate[] {
  const reading = readTyped(contextOf(evening), line);
  const proposals =
    reading.kind === 'one' ? [reading.proposal] : reading.kind === 'several' ? reading.proposals : [];
  return proposals.map(({ act }, index) => ({
    strokes: [
      ...line,
      'Enter',
      ...(reading.kind === 'several' ? [...Array<string>(index).fill('ArrowDown'), 'Enter'] : []),
    ],
    looks: reading.kind === 'several' ? line.length : null,
    items: act.kind === 'send' ? act.items : [],
  }));
}

/** The cheapest line that says it; the shortest are tried first, and none that cannot be cheaper than what was found. */
function byLine(
  evening: Evening,
  wanted: SessionInput,
  fits: (candidate: Candidate) => boolean,
): readonly Candidate[] {
  let best: Candidate | undefined;
  for (const line of linesFor(evening, wanted).toSorted((one, other) => one.length - other.length)) {
    if (best !== undefined && line.length + 1 >= best.strokes.length) break;
    for (const candidate of byReading(evening, line))
      if (fits(candidate) && (best === undefined || costOf(candidate) < costOf(best))) best = candidate;
  }
  return best === undefined ? [] : [best];
}

/** What the screen has besides the evening. */
interface OnScreen {
  /** What was refused last, with its ways out in the band. */
  readonly refused: SessionEvent | null;
  /** Keys of what was put off. */
  readonly later: readonly string[];
}

/** The way of the fewest keys that fits; a line is typed only where no single key says it. */
export function cheapestWay(
  evening: Evening,
  wanted: SessionInput,
  { refused, later }: OnScreen,
  fits: (candidate: Candidate) => boolean,
): Candidate | undefined {
  const keys = ACTS[wanted.do] ?? OTHERS;
  const atHand = [
    ...keys.flatMap((act) => byKey(evening, act, later)),
    ...keys.flatMap((act) => byChoice(evening, act, later)),
    ...byBand(evening, refused),
    ...byName(evening, wanted),
  ].filter(fits);
  const found = atHand.some((one) => costOf(one) <= 1)
    ? atHand
    : [...atHand, ...byLine(evening, wanted, fits)];
  return found.toSorted((one, other) => costOf(one) - costOf(other))[0];
}
