/** An evening of 25 entries on the example railroad, short enough to work out every figure by hand. */
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import { passingSidingExample } from '../support/example.ts';

const SAID: readonly (readonly [at: number, input: object])[] = [
  [0, { do: 'open-session' }],
  [1, { do: 'assign-cab', cab: '1', person: 'Avery' }],
  [2, { do: 'assign-cab', cab: '2', person: 'Blake' }],
  [3, { do: 'place-train', train: 't7', edge: 'e1', toward: 'g1', cab: '1' }],
  [4, { do: 'place-train', train: 't12', edge: 'e5', toward: 'g3', cab: '2' }],
  [5, { do: 'turn-selector', selector: 'K3', position: '2' }],
  [6, { do: 'turn-selector', selector: 'K1', position: '1' }],
  [7, { do: 'start' }],
  [10, { do: 'override', why: 'the gap is in sight', order: { do: 'request-move', train: 't12', to: 'e7' } }],
  [15, { do: 'call', cab: '1' }],
  [20, { do: 'request-move', train: 't7', to: 'e7' }],
  [22, { do: 'acknowledge', authority: 'a1' }],
  [24, { do: 'turn-selector', selector: 'K2', position: '2' }],
  [26, { do: 'throw-turnout', turnout: 'T2', position: 'reverse' }],
  [30, { do: 'train-entered', train: 't12', block: 'B2' }],
  [40, { do: 'selector-stands-at', selector: 'K1', position: '3' }],
  [45, { do: 'selector-stands-at', selector: 'K1', position: '1' }],
  [80, { do: 'take-off', train: 't12' }],
  [85, { do: 'hand-off', train: 't7', block: 'B2', toCab: '2' }],
  [90, { do: 'request-move', train: 't7', to: 'e7' }],
  [92, { do: 'acknowledge', authority: 'a2' }],
  [97, { do: 'throw-turnout', turnout: 'T2', position: 'normal' }],
  [100, { do: 'train-entered', train: 't7', block: 'B2' }],
  [110, { do: 'turn-selector', selector: 'K1', position: '3' }],
  [130, { do: 'end-session' }],
];

/** The evening as the rules judged it. */
export const workedEvening = SAID.reduce(
  (evening, [at, input]) => take(evening, { at, input: sessionInput.parse(input) }).evening,
  newEvening(indexRailroad(passingSidingExample)),
);
