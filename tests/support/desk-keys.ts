/**
 * Finds the keys by which a script is said at the Desk: for each input the fewest that the Desk has for it, by the same functions that
 * read its keys. What an earlier key said already needs none. Every key stroke is counted, those of free text too; keys that are held
 * for another (Shift) are one stroke with it.
 */

import { RECENT_EVENTS } from '../../renderer/console/followed-evening.ts';
import { doingOfAct, grantTo } from '../../renderer/desk/desk-acts.ts';
import { readTyped } from '../../renderer/desk/entry-line/read-typed.ts';
import type { LineContext } from '../../renderer/desk/entry-line/reading.ts';
import { type Doing, firstPick, type Option } from '../../renderer/desk/option.ts';
import { waysOut } from '../../renderer/desk/ways-out.ts';
import { ACT_KEYS, type ActName } from '../../renderer/keys/acts.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { type Evening, take, takeBatch } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionInput, TimedInput } from '../../shared-model/session/input.ts';
import { linesFor } from './desk-lines.ts';

/** One act of the dispatcher: the keys, and when. */
export interface KeyedAct {
  /** Seconds of the evening. */
  readonly at: number;
  /** Named as strokes are ("Numpad1", "Shift+F1"), or one letter. */
  readonly strokes: readonly string[];
  /** Before this of its strokes, what the band offers has to be on the screen; null: it looks at nothing. */
  readonly looks: number | null;
  /** Entries of the evening after it. */
  readonly entries: number;
}

export interface KeyedEvening {
  readonly acts: readonly KeyedAct[];
  /** Before which acts the page, and then the console, begins anew: what was put off and what was answered is gone from the screen. */
  readonly anew: readonly number[];
  /** The evening that the keys make. */
  readonly typed: Evening;
  /** The evening that the script makes. */
  readonly scripted: Evening;
}

interface Candidate {
  readonly strokes: readonly string[];
  readonly looks: number | null;
  readonly items: readonly BatchItem[];
  /** What is put off after it, if its keys change that. */
  readonly later?: readonly string[];
}

const NUMBERS = [1, 2, 3, 4, 5, 6] as const;
const THROWS: readonly ActName[] = ['throw-done', 'cab-throws-done'];
const SHOWN: readonly ActName[] = ['as-shown'];
const OTHERS: readonly ActName[] = ['clear', 'alarm-seen', 'alarm-mended', 'retract', ...THROWS];

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
const same = (one: object, other: object): boolean => sorted(one) === sorted(other);

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
const WAYS_ON: readonly ActName[] = ['grant-ask', 'grant-far'];
const MOST_PUT_OFF = 2;

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

/** Two requests that are granted over the same track: of an edge, and of the block that it ends. */
function endsAlike(evening: Evening, one: SessionInput, other: SessionInput): boolean {
  if (one.do !== 'request-move' || other.do !== 'request-move') return false;
  const { to: _, ...rest } = one;
  const { to: __, ...otherRest } = other;
  const legsAfter = (input: SessionInput) => {
    const { evening: after, event } = take(evening, { at: evening.state.at, input });
    return (
      after.state.authorities[event.authority ?? ('' as never)]?.legs ?? event.reasons.map(({ code }) => code)
    );
  };
  return same(rest, otherRest) && JSON.stringify(legsAfter(one)) === JSON.stringify(legsAfter(other));
}

/** What a key says: of what it implies (a handle at zero was asked for) only what the script says too. */
const itemsSaid = (items: readonly BatchItem[], soon: readonly SessionInput[]): readonly SessionInput[] =>
  items
    .filter(({ impliedBy, input }) => impliedBy === undefined || soon.some((other) => same(input, other)))
    .map(({ input }) => input);

/** Whether it says what is wanted, and nothing that the script does not say soon after (what a handle at zero was asked for is no word of its own). */
function says(evening: Evening, { items }: Candidate, [wanted, ...soon]: readonly SessionInput[]): boolean {
  const inputs = itemsSaid(items, [...(wanted === undefined ? [] : [wanted]), ...soon]);
  const [first, ...more] = inputs;
  return (
    first !== undefined &&
    wanted !== undefined &&
    (same(first, wanted) || endsAlike(evening, first, wanted)) &&
    more.every((input) => soon.some((other) => same(input, other)))
  );
}

/** A hand movement that NEXT puts differently: that it would be refused is seen while it is typed, and the line is left. */
function seenWhileTyped(evening: Evening, input: SessionInput): readonly string[] {
  const [line] = linesFor(evening, input).toSorted((one, other) => other.length - one.length);
  if (line === undefined) throw new Error(`no line says ${JSON.stringify(input)}`);
  return [...line, 'Escape'];
}

/** What is refused is an order alone: with where the thing stands all the same it would be a report of what is not so. */
const isOrderAlone = ({ items }: Candidate): boolean =>
  items.every(({ otherwise }) => otherwise === undefined);

/** A knob that is known to stand so already needs no word, but after a stop. */
function isSaid({ state }: Evening, input: SessionInput): boolean {
  if (state.phase === 'stopped' && input.do.endsWith('-stands-at')) return false;
  switch (input.do) {
    case 'turn-selector':
    case 'selector-stands-at': {
      const now = state.selectors[input.selector];
      return now?.position === input.position && !now.presumed;
    }
    case 'throw-turnout':
    case 'turnout-stands-at': {
      const now = state.turnouts[input.turnout];
      return now?.position === input.position && !now.presumed;
    }
    case 'set-toggle':
    case 'toggle-stands-at': {
      const now = state.toggles[input.toggle];
      return now?.on === input.on && !now.presumed;
    }
    case 'handle-at-zero':
      return state.cabs[input.cab]?.atZero === true;
    case 'acknowledge':
      return state.authorities[input.authority]?.legs.every(({ readBack }) => readBack) === true;
    default:
      return false;
  }
}

/** An entry of the script as the typed evening numbers it. */
function withEntry(input: SessionInput, entries: ReadonlyMap<number, number>): SessionInput {
  if (input.do === 'retract') return { ...input, entry: entries.get(input.entry) ?? input.entry };
  return input.do === 'alarm-seen' ? { ...input, alarm: entries.get(input.alarm) ?? input.alarm } : input;
}

/** Acts from the page's beginning anew to the console's. */
const ACTS_BETWEEN = 10;

/** How far ahead in the script what one key says besides may stand. */
const SOON = 30;

/**
 * The acts of an evening at the Desk that says a script.
 *
 * @param opened the evening after its first input, which opens it
 * @param script the inputs after that
 * @param anewFrom the second from which on the page begins anew, and the console some acts later
 */
export function keyedActs(opened: Evening, script: readonly TimedInput[], anewFrom: number): KeyedEvening {
  const anew: number[] = [];
  const acts: KeyedAct[] = [];
  let evening = opened;
  let refused: SessionEvent | null = null;
  let scripted = opened;
  let later: readonly string[] = [];
  const entries = new Map<number, number>();
  const left = [...script];
  /** What an earlier key said besides. */
  const ahead: SessionInput[] = [];
  for (let timed = left.shift(); timed !== undefined; timed = left.shift()) {
    const { at } = timed;
    const { length } = acts;
    const begins =
      anew.length === 0 ? at > anewFrom : anew.length === 1 && length === (anew[0] ?? 0) + ACTS_BETWEEN;
    if (begins) {
      anew.push(length);
      later = [];
      refused = null;
    }
    const input = withEntry(timed.input, entries);
    const own = take(scripted, timed);
    scripted = own.evening;
    const again = ahead.findIndex((one) => same(one, input));
    if (again >= 0) {
      ahead.splice(again, 1);
      continue;
    }
    if (own.event.outcome !== 'refused' && isSaid(evening, input)) continue;
    const soon = [input, ...left.slice(0, SOON).map((one) => one.input)];
    const now: Evening = evening;
    const before = refused;
    const fits = (candidate: Candidate): boolean =>
      says(now, candidate, soon) && (own.event.outcome !== 'refused' || isOrderAlone(candidate));
    const keys = ACTS[input.do] ?? OTHERS;
    const atHand = [
      ...keys.flatMap((act) => byKey(now, act, later)),
      ...keys.flatMap((act) => byChoice(now, act, later)),
      ...byBand(now, before),
      ...byName(now, input),
    ].filter(fits);
    const found = atHand.some((one) => costOf(one) <= 1) ? atHand : [...atHand, ...byLine(now, input, fits)];
    const cheapest = found.toSorted((one, other) => costOf(one) - costOf(other))[0];
    if (cheapest === undefined && own.event.outcome === 'refused') {
      acts.push({ at, strokes: seenWhileTyped(now, input), looks: null, entries: now.state.entries });
      continue;
    }
    if (cheapest === undefined) throw new Error(`no keys say ${JSON.stringify(timed)}`);
    const answer = takeBatch(now, Math.max(at, now.state.at), cheapest.items);
    ahead.push(...itemsSaid(cheapest.items, soon).slice(1));
    refused = answer.ok ? (answer.events.find(({ outcome }) => outcome === 'refused') ?? null) : answer.event;
    evening = answer.evening;
    const entry = evening.events.findLast(
      (event) => same(event.input, input) || same(event.input, cheapest.items[0]?.input ?? {}),
    )?.entry;
    if (entry !== undefined) entries.set(own.event.entry, entry);
    later = cheapest.later ?? later;
    const { strokes, looks } = cheapest;
    acts.push({ at, strokes, looks, entries: evening.state.entries });
  }
  return { acts, anew, typed: evening, scripted };
}

/** Strokes, and a little less for what says more at once. */
const costOf = ({ strokes, items }: Candidate): number => strokes.length - items.length / 1000;
