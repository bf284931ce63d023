/** Making up: who comes, where everything stands, and the first moves before the trains go round. */
import type { SessionEvent } from '../../session/event.ts';
import { order, runOut } from './crew.ts';
import { type Part, refusedThen, type Stage, say, sayAll, type Words } from './stage.ts';

/** The people of an evening by what they do. */
export interface People {
  readonly dispatcher: string;
  readonly first: string;
  readonly second: string;
  readonly third: string;
  /** Comes late and brings an engine. */
  readonly guest: string;
}

/** Where everything stands at first, and the strokes that each takes: two fit into a minute. */
const PLACED: readonly (readonly [number, Words])[] = [
  [9, { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' }],
  [10, { do: 'place-train', train: 't12', edge: 'e17', toward: 'g9', cab: '3' }],
  [9, { do: 'place-train', train: 't3', edge: 'e46', toward: 'g16', cab: '4' }],
  [9, { do: 'place-train', train: 't18', edge: 'e2', toward: 'g2', cab: '2' }],
  [11, { do: 'place-train', train: 't41', edge: 'e34', toward: 'g14', cab: '2' }],
  [7, { do: 'place-train', train: 't24', edge: 'e48', toward: 'g18' }],
];

/** Somebody takes a cab: its mark and the name are typed. */
export const crewOf = (stage: Stage, cab: string, person: string): Generator<number, SessionEvent, void> =>
  say(stage, { do: 'assign-cab', cab, person }, 4, `c${cab} `.length + person.length + 1);

/** Every knob, turnout and toggle, read off as it stands. */
export function knobsRead({ evening: { state } }: Stage): readonly Words[] {
  return [
    ...Object.entries(state.selectors).map(([selector, { position }]) => ({
      do: 'selector-stands-at',
      selector,
      position,
    })),
    ...Object.entries(state.turnouts).map(([turnout, { position }]) => ({
      do: 'turnout-stands-at',
      turnout,
      position,
    })),
    ...Object.entries(state.toggles).map(([toggle, { on }]) => ({ do: 'toggle-stands-at', toggle, on })),
  ];
}

export function* makeUp(stage: Stage, people: People): Part {
  yield* say(stage, { do: 'open-session' });
  yield* sayAll(stage, knobsRead(stage), 1);
  yield* crewOf(stage, '1', people.first);
  yield* crewOf(stage, '2', people.second);
  yield* say(stage, { do: 'apply-setting', setting: 'meet' });
  yield* crewOf(stage, '3', people.third);
  yield* say(stage, { do: 'set-clock', ratio: 6, minutes: 420 });
  for (const [strokes, words] of PLACED) yield* say(stage, words, 4, strokes);
  // Knob 1 was left at cab 1 by the setting: the alarm ends with the turn.
  yield* say(stage, { do: 'turn-selector', selector: 'K1', position: '2' }, 4, 1);
  yield* say(stage, { do: 'start' });
}

/** The first moves on the outer oval: an engine that would start with another, then each one block on. */
export function* firstMoves(stage: Stage): Part {
  yield* say(stage, { do: 'call', cab: '2' });
  const toThroat = { do: 'request-move', train: 't18', to: 'e5' } as const;
  yield* refusedThen(stage, toThroat, 6, { do: 'turn-selector', selector: 'K10', position: 'off' });
  yield* order(stage, 't18', 'e5', {}, 1);
  yield* runOut(stage, 't18', 14);

  yield* order(stage, 't7', 'B4', {}, 4);
  yield* runOut(stage, 't7', 12);
  yield* order(stage, 't18', 'B3', {}, 1);
  yield* runOut(stage, 't18', 12);
}
