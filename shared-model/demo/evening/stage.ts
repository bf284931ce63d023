/** The stage of an invented evening: parts that take turns by the clock, every word of theirs put through the real rules. */

import { type Evening, take, worldOf } from '../../session/evening.ts';
import type { SessionEvent } from '../../session/event.ts';
import { sessionInput, type TimedInput } from '../../session/input.ts';
import type { World } from '../../session/world.ts';

/** An input as it is written in a part; parsed like any other that comes from outside. */
export type Words = { readonly do: string } & Readonly<Record<string, unknown>>;

/** Where the parts meet: what was said so far, and the evening that follows from it. */
export interface Stage {
  evening: Evening;
  /** Seconds since the session was opened. */
  at: number;
  readonly inputs: TimedInput[];
  /** What the dispatcher's hands did lately. */
  readonly hands: { readonly at: number; readonly strokes: number }[];
  /** Strokes of what is to be typed, for which the hands have to become free. */
  toType: number;
  /** The dispatcher speaks with somebody: nothing else is said till that has been read back. */
  talks: boolean;
}

export const emptyStage = (evening: Evening): Stage => ({
  evening,
  at: 0,
  inputs: [],
  hands: [],
  toType: 0,
  talks: false,
});

/** A part acts until it yields the seconds that it waits. */
export type Part = Generator<number, void, void>;

/** Key strokes that the dispatcher makes in any minute, at most: the talk takes the rest of it. */
const STROKES_A_MINUTE = 19;
/** From so many strokes on, something is typed or picked: the single keys wait for it. */
const TYPED = 2;

/** Waits until the hands have room for so many strokes more. */
export function* handsFree(stage: Stage, strokes: number): Part {
  const wanted = Math.min(strokes, STROKES_A_MINUTE);
  const typed = wanted >= TYPED;
  const lately = (): number =>
    stage.hands.reduce((sum, done) => sum + (done.at > stage.at - 60 ? done.strokes : 0), 0);
  if (typed) stage.toType += wanted;
  while (stage.talks || lately() + wanted + (typed ? 0 : stage.toType) > STROKES_A_MINUTE) yield 1;
  if (typed) stage.toType -= wanted;
}

/** Says one input now. */
export function speak(stage: Stage, words: Words, strokes: number): SessionEvent {
  const timed: TimedInput = { at: stage.at, input: sessionInput.parse(words) };
  const { evening, event } = take(stage.evening, timed);
  stage.evening = evening;
  stage.inputs.push(timed);
  if (strokes > 0) stage.hands.push({ at: stage.at, strokes });
  return event;
}

/** Strokes that an input takes at the Desk, about; one key where nothing is said here, none where the key before says it too. */
const STROKES: Readonly<Record<string, number>> = {
  'open-session': 0,
  'selector-stands-at': 0,
  'turnout-stands-at': 0,
  'toggle-stands-at': 0,
  'turn-selector': 0,
  'handle-at-zero': 0,
  'set-toggle': 3,
  'throw-turnout': 3,
  'set-clock': 10,
  'apply-setting': 5,
  'place-train': 10,
  'train-entered': 6,
  start: 4,
  resume: 4,
  'end-session': 3,
  tag: 11,
  untag: 6,
  note: 12,
  'grant-limits': 7,
  'release-limits': 7,
  'set-out': 13,
  'pick-up': 5,
  'add-train': 14,
  'phase-measured': 12,
  'change-cab': 6,
  'stop-all': 3,
  'breaker-tripped': 8,
  derailed: 7,
  'stop-called': 8,
  settle: 3,
  'hand-off': 2,
  retract: 2,
};

/** Says one input as soon as the hands are free for it, and waits. */
export function* say(
  stage: Stage,
  words: Words,
  seconds = 4,
  strokes = STROKES[words.do] ?? 1,
): Generator<number, SessionEvent, void> {
  yield* handsFree(stage, strokes);
  const event = speak(stage, words, strokes);
  yield seconds;
  return event;
}

/** Seconds from words to their read-back, or to the way out of a refusal. */
const ANSWERED = 4;

/** Nothing else is said until that is over. */
function* talk(stage: Stage, strokes: number, words: () => Generator<number, SessionEvent, void>) {
  yield* handsFree(stage, strokes);
  stage.talks = true;
  const event = yield* words();
  stage.talks = false;
  yield 3;
  return event;
}

/** What was granted is read back. */
function readBackOf(stage: Stage, { authority }: SessionEvent): void {
  if (authority !== undefined) speak(stage, { do: 'acknowledge', authority }, 1);
}

/** Asks for something and has it read back, if it is granted. */
export const grant = (stage: Stage, asked: Words, strokes: number): Generator<number, SessionEvent, void> =>
  talk(stage, strokes + 1, function* () {
    const event = speak(stage, asked, strokes);
    yield ANSWERED;
    if (event.outcome !== 'refused') readBackOf(stage, event);
    return event;
  });

/** A way out is picked by an arrow and Enter. */
const WAY_OUT = 2;

/** Asks for something that is refused, and takes one of the ways out before anything else is done. */
export const refusedThen = (
  stage: Stage,
  asked: Words,
  strokes: number,
  wayOut: Words,
): Generator<number, SessionEvent, void> =>
  talk(stage, strokes + WAY_OUT + 1, function* () {
    speak(stage, asked, strokes);
    yield ANSWERED;
    const event = speak(stage, wayOut, WAY_OUT);
    if (event.authority === undefined) return event;
    yield ANSWERED;
    readBackOf(stage, event);
    return event;
  });

/** Says one after the other, with the same wait after each. */
export function* sayAll(stage: Stage, lines: readonly Words[], seconds = 4): Part {
  for (const words of lines) yield* say(stage, words, seconds);
}

export const worldNow = (stage: Stage): World => worldOf(stage.evening);

/** Lets the parts take turns, the earliest due first and of two at once the one named first, until all have ended. */
export function play(stage: Stage, parts: readonly Part[]): void {
  let waiting = parts.map((part) => ({ part, due: stage.at }));
  while (waiting.length > 0) {
    const next = waiting.reduce((first, other) => (other.due < first.due ? other : first));
    stage.at = Math.max(stage.at, next.due);
    const turn = next.part.next();
    if (turn.done === true) waiting = waiting.filter((other) => other !== next);
    else next.due = stage.at + turn.value;
  }
}
