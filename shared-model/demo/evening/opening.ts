/** Making up: who comes, where everything stands, and the first moves before the trains go round. */
import { order, runOut } from './crew.ts';
import { type Part, type Stage, say, sayAll } from './stage.ts';

/** The people of an evening by what they do. */
export interface People {
  readonly dispatcher: string;
  readonly first: string;
  readonly second: string;
  readonly third: string;
  /** Comes late and brings an engine. */
  readonly guest: string;
}

const SHOWN = ['K6', 'K7', 'K8', 'K9', 'K12', 'K14', 'K15', 'K16'] as const;

export function* makeUp(stage: Stage, people: People): Part {
  yield* sayAll(
    stage,
    [
      { do: 'open-session' },
      { do: 'note', text: `${people.dispatcher} dispatches tonight.` },
      { do: 'assign-cab', cab: '1', person: people.first },
      { do: 'assign-cab', cab: '2', person: people.second },
      { do: 'assign-cab', cab: '3', person: people.third },
      { do: 'set-clock', ratio: 6, minutes: 420 },
      { do: 'apply-setting', setting: 'meet' },
      ...SHOWN.map((selector) => ({ do: 'selector-stands-at', selector, position: 'off' })),
      { do: 'toggle-stands-at', toggle: 'H1', on: false },
      { do: 'toggle-stands-at', toggle: 'H2', on: false },
      { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' },
      { do: 'place-train', train: 't12', edge: 'e17', toward: 'g9', cab: '3' },
      { do: 'place-train', train: 't3', edge: 'e46', toward: 'g16', cab: '4' },
      { do: 'place-train', train: 't24', edge: 'e48', toward: 'g18' },
      { do: 'place-train', train: 't41', edge: 'e34', toward: 'g14' },
      { do: 'place-train', train: 't18', edge: 'e2', toward: 'g2', cab: '2' },
    ],
    3,
  );
  // Knob 1 was left at cab 1 by the setting: the alarm ends with the turn.
  yield* say(stage, { do: 'turn-selector', selector: 'K1', position: '2' });
  yield* say(stage, { do: 'tag', thing: 'K9', why: 'knob turns on its shaft', by: people.third });
  yield* say(stage, { do: 'start' });
}

/** The first moves: a tagged knob, an engine that would start with another, a train in the way, a turnout under lock. */
export function* firstMoves(stage: Stage, people: People): Part {
  yield* say(stage, { do: 'call', cab: '3' });
  yield* order(stage, 't12', 'e19');
  yield* say(stage, { do: 'note', text: `${people.third} tightens knob 9.` }, 12);
  yield* say(stage, { do: 'untag', thing: 'K9', by: people.third });
  yield* order(stage, 't12', 'e19');

  yield* say(stage, { do: 'call', cab: '2' });
  yield* order(stage, 't18', 'e5');
  yield* say(stage, { do: 'turn-selector', selector: 'K10', position: 'off' });
  yield* order(stage, 't18', 'e5');
  yield* runOut(stage, 't18', 14);

  yield* say(stage, { do: 'request-move', train: 't18', to: 'B3' });
  yield* order(stage, 't7', 'B4');
  yield* runOut(stage, 't7', 12);
  yield* order(stage, 't18', 'B3');
  yield* say(stage, { do: 'throw-turnout', turnout: 'T6', position: 'reverse' });
  yield* say(stage, { do: 'advance', train: 't18' }, 12);
  yield* say(stage, { do: 'advance', train: 't18' }, 6);
  yield* say(stage, { do: 'throw-turnout', turnout: 'T6', position: 'reverse' });
  yield* say(stage, { do: 'throw-turnout', turnout: 'T6', position: 'normal' });
  yield* runOut(stage, 't18', 6);
}
