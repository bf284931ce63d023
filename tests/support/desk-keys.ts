/**
 * Finds the keys by which a script is said at the Desk: for each input the fewest that the Desk has for it, by the same functions that
 * read its keys. What an earlier key said already needs none. Every key stroke is counted, those of free text too; keys that are held
 * for another (Shift) are one stroke with it.
 */
import type { BatchItem } from '../../shared-model/session/batch.ts';
import { type Evening, take, takeBatch } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionInput, TimedInput } from '../../shared-model/session/input.ts';
import { type Candidate, cheapestWay, same } from './desk-key-ways.ts';
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
    const cheapest = cheapestWay(now, input, { refused: before, later }, fits);
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
