/**
 * Finds the keys by which a script is said at the Desk: for each input the fewest that the Desk has for it, by the same functions that
 * read its keys. What an earlier key said already needs none. Letters of free text (a note, a reason, a name) are counted apart.
 */

import { RECENT_EVENTS } from '../../renderer/console/followed-evening.ts';
import { doingOfAct, grantTo } from '../../renderer/desk/desk-acts.ts';
import { readTyped } from '../../renderer/desk/entry-line/read-typed.ts';
import type { LineContext } from '../../renderer/desk/entry-line/reading.ts';
import type { Doing } from '../../renderer/desk/option.ts';
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
  /** How many of the strokes are letters of free text. */
  readonly text: number;
  /** It goes through what the band offers: the answer before has to be on the screen. */
  readonly looks: boolean;
  /** Entries of the evening after it. */
  readonly entries: number;
}

export interface KeyedEvening {
  readonly acts: readonly KeyedAct[];
  /** The evening that the keys make. */
  readonly typed: Evening;
  /** The evening that the script makes. */
  readonly scripted: Evening;
}

interface Candidate {
  readonly strokes: readonly string[];
  readonly text: number;
  readonly looks: boolean;
  readonly items: readonly BatchItem[];
}

const NUMBERS = [1, 2, 3, 4, 5, 6] as const;
const ACTS: readonly ActName[] = [
  'grant-ask',
  'throw-done',
  'cab-throws-done',
  'read-back',
  'read-back-and-throws',
  'as-shown',
  'clear',
  'alarm-seen',
  'retract',
  ...NUMBERS.flatMap((n): ActName[] => [`advance-${n}`, `call-${n}`]),
];

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

/** What an act key says now. */
const byKey = (evening: Evening, act: ActName): Candidate => ({
  strokes: strokesOfAct(act),
  text: 0,
  looks: false,
  items: itemsOf(doingOfAct(act, contextOf(evening), [])),
});

/** The ways out that the band offers after a refusal: arrows to it, then Enter. */
function byBand(evening: Evening, refused: SessionEvent | null): readonly Candidate[] {
  if (refused === null) return [];
  return waysOut(contextOf(evening), refused, evening.state.at).map(({ does }, index) => ({
    strokes: [...Array<string>(index + 1).fill('ArrowRight'), 'Enter'],
    text: 0,
    looks: true,
    items: does.kind === 'send' ? does.items : [],
  }));
}

/** The train in the line, then + for its ask or its way on. */
function byName(evening: Evening, wanted: SessionInput): readonly Candidate[] {
  if (wanted.do !== 'request-move') return [];
  const number = /\d+/.exec(evening.state.trains[wanted.train]?.name ?? '')?.[0] ?? '';
  const items = itemsOf(grantTo(contextOf(evening), wanted.train));
  return [{ strokes: [...number, 'NumpadAdd'], text: 0, looks: false, items }];
}

function byLine(evening: Evening, wanted: SessionInput): readonly Candidate[] {
  return linesFor(evening, wanted).map(({ line, text }) => {
    const reading = readTyped(contextOf(evening), line);
    const act = reading.kind === 'one' ? reading.proposal.act : null;
    return {
      strokes: [...line, 'Enter'],
      text,
      looks: false,
      items: act?.kind === 'send' ? act.items : [],
    };
  });
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

/** Whether it says what is wanted, and nothing that the script does not say soon after (what a handle at zero was asked for is no word of its own). */
function says(evening: Evening, { items }: Candidate, [wanted, ...soon]: readonly SessionInput[]): boolean {
  const inputs = items.filter(({ impliedBy }) => impliedBy === undefined).map(({ input }) => input);
  const [first, ...more] = inputs;
  return (
    first !== undefined &&
    wanted !== undefined &&
    (same(first, wanted) || endsAlike(evening, first, wanted)) &&
    more.every((input) => soon.some((other) => same(input, other)))
  );
}

/** A knob that is known to stand so already needs no word. */
function isSaid({ state }: Evening, input: SessionInput): boolean {
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
    case 'acknowledge':
      return state.authorities[input.authority]?.legs.every(({ readBack }) => readBack) === true;
    default:
      return false;
  }
}

/** Throws are confirmed after the hand: that one would be refused is seen while it is typed, and the line is left. */
const THROWS: readonly SessionInput['do'][] = ['turn-selector', 'throw-turnout', 'set-toggle'];

/** An entry of the script as the typed evening numbers it. */
function withEntry(input: SessionInput, entries: ReadonlyMap<number, number>): SessionInput {
  if (input.do === 'retract') return { ...input, entry: entries.get(input.entry) ?? input.entry };
  return input.do === 'alarm-seen' ? { ...input, alarm: entries.get(input.alarm) ?? input.alarm } : input;
}

/** The next input of the script; of two read-backs that come together, the one whose words were spoken last. */
function nextOf(left: TimedInput[], evening: Evening): TimedInput | undefined {
  const next = left.shift();
  if (next?.input.do !== 'acknowledge') return next;
  const [spoken] = itemsOf(doingOfAct('read-back', contextOf(evening), []));
  const at = left.findIndex(
    ({ input }, index) => index < TOGETHER && spoken !== undefined && same(input, spoken.input),
  );
  if (at < 0 || (spoken !== undefined && same(next.input, spoken.input))) return next;
  const [other] = left.splice(at, 1, next);
  return other === undefined ? next : { ...other, at: next.at };
}
const TOGETHER = 8;

/** How far ahead in the script what one key says besides may stand. */
const SOON = 30;

/**
 * The acts of an evening at the Desk that says a script.
 *
 * @param opened the evening after its first input, which opens it
 * @param script the inputs after that
 */
export function keyedActs(opened: Evening, script: readonly TimedInput[]): KeyedEvening {
  const acts: KeyedAct[] = [];
  let evening = opened;
  let refused: SessionEvent | null = null;
  let scripted = opened;
  const entries = new Map<number, number>();
  const left = [...script];
  for (let timed = nextOf(left, evening); timed !== undefined; timed = nextOf(left, evening)) {
    const { at } = timed;
    const input = withEntry(timed.input, entries);
    const own = take(scripted, timed);
    scripted = own.evening;
    if (own.event.outcome !== 'refused' && isSaid(evening, input)) continue;
    const line =
      own.event.outcome === 'refused' && THROWS.includes(input.do) ? byLine(evening, input)[0] : undefined;
    if (line !== undefined) {
      acts.push({
        ...line,
        at,
        strokes: [...line.strokes.slice(0, -1), 'Escape'],
        entries: evening.state.entries,
      });
      continue;
    }
    const soon = [input, ...left.slice(0, SOON).map((one) => one.input)];
    const now: Evening = evening;
    const before = refused;
    const found: readonly Candidate[] = [
      ...ACTS.map((act) => byKey(now, act)),
      ...byBand(now, before),
      ...byName(now, input),
      ...byLine(now, input),
    ].filter((candidate) => says(now, candidate, soon));
    const cheapest = found.toSorted((one, other) => costOf(one) - costOf(other))[0];
    if (cheapest === undefined) throw new Error(`no keys say ${JSON.stringify(timed)}`);
    const answer = takeBatch(now, Math.max(at, now.state.at), cheapest.items);
    refused = answer.ok ? (answer.events.find(({ outcome }) => outcome === 'refused') ?? null) : answer.event;
    evening = answer.evening;
    const entry = evening.events.findLast(
      (event) => same(event.input, input) || same(event.input, cheapest.items[0]?.input ?? {}),
    )?.entry;
    if (entry !== undefined) entries.set(own.event.entry, entry);
    const { strokes, text, looks } = cheapest;
    acts.push({ at, strokes, text, looks, entries: evening.state.entries });
  }
  return { acts, typed: evening, scripted };
}

/** Keys, and a little less for what says more at once. */
const costOf = ({ strokes, items }: Candidate): number =>
  strokes.reduce((sum, stroke) => sum + keysOf(stroke), 0) - items.length / 1000;

/** A chord is as many keys as are pressed for it. */
export const keysOf = (stroke: string): number => (stroke === '+' ? 1 : stroke.split('+').length);

/** The keys of an act, its free text left out. */
export const countedKeys = ({ strokes, text }: KeyedAct): number =>
  strokes.reduce((sum, stroke) => sum + keysOf(stroke), 0) - text;
