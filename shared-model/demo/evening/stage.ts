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
}

/** A part acts until it yields the seconds that it waits. */
export type Part = Generator<number, void, void>;

/** Says one input now. */
export function speak(stage: Stage, words: Words): SessionEvent {
  const timed: TimedInput = { at: stage.at, input: sessionInput.parse(words) };
  const { evening, event } = take(stage.evening, timed);
  stage.evening = evening;
  stage.inputs.push(timed);
  return event;
}

/** Says one input and waits. */
export function* say(stage: Stage, words: Words, seconds = 4): Generator<number, SessionEvent, void> {
  const event = speak(stage, words);
  yield seconds;
  return event;
}

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
