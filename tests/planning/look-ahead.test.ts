/** A move that locks the railroad later is refused: on the passing siding, two trains have to meet, and one must not take the main while the other is beyond it. */
import { describe, expect, it } from 'vitest';
import { glanceAhead, lookAhead } from '../../shared-model/planning/look-ahead.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { sessionInput } from '../../shared-model/session/input.ts';
import type { LookAhead, LookAheadSituation } from '../../shared-model/session/world.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(passingSidingExample);

const verdicts = (declared: readonly object[], ...inputs: readonly object[]) =>
  verdictsBy(lookAhead, declared, inputs);

function verdictsBy(look: LookAhead, declared: readonly object[], inputs: readonly object[]) {
  let evening = newEvening(railroad, {}, look);
  const all: readonly object[] = [
    { do: 'open-session' },
    { do: 'assign-cab', cab: '1', person: 'Avery' },
    { do: 'assign-cab', cab: '3', person: 'Blake' },
    { do: 'place-train', train: 't7', edge: 'e1', toward: 'g1', cab: '1' },
    { do: 'place-train', train: 't12', edge: 'e8', toward: 'g4', cab: '3' },
    ...declared,
    { do: 'start' },
    ...inputs,
  ];
  return all.map((input, at) => {
    const taken = take(evening, { at, input: sessionInput.parse(input) });
    evening = taken.evening;
    return taken.event.outcome === 'refused'
      ? taken.event.reasons.map(({ code }) => code)
      : taken.event.outcome;
  });
}
const ends = [
  { do: 'declare', train: 't7', to: 'B4' },
  { do: 'declare', train: 't12', to: 'B1' },
];
const takesMain = { do: 'request-move', train: 't7', to: 'e7' };

describe('gridlock ahead', () => {
  it('refuses the main to a train while the one that it has to meet is beyond', () => {
    expect(verdicts(ends, takesMain).at(-1)).toEqual(['gridlock-ahead']);
  });
  it('grants it the siding, where the other can pass', () => {
    expect(verdicts(ends, { do: 'request-move', train: 't7', to: 'B3' }).at(-1)).toBe('done');
  });
  it('refuses nothing when nobody said where the trains are to end up', () => {
    expect(verdicts([], takesMain).at(-1)).toBe('done');
  });
  it('is seen at a glance too, while the move is typed', () => {
    expect(verdictsBy(glanceAhead, ends, [takesMain]).at(-1)).toEqual(['gridlock-ahead']);
  });
  it('may be overridden: somebody will have to back up', () => {
    const override = { do: 'override', why: 'No. 12 backs up', order: takesMain };
    expect(verdicts(ends, override).at(-1)).toBe('done');
  });
});

describe('cars that a train has picked up in another block', () => {
  it('are told to the planning room with the train, as long as it stands', () => {
    const seen: LookAheadSituation[] = [];
    const spy: LookAhead = (_railroad, situation) => {
      seen.push(situation);
      return { verdict: 'gridlock', trains: [], blocks: [] };
    };
    const cars = [
      { do: 'take-off', train: 't12' },
      { do: 'take-off', train: 't7' },
      { do: 'place-train', train: 't7', edge: 'e7', toward: 'g4', cab: '3' },
      { do: 'set-out', train: 't7', cut: 'hoppers', length: 300, edge: 'e5', toward: 'g3' },
      { do: 'pick-up', train: 't7', cut: 'hoppers' },
      { do: 'declare', train: 't7', to: 'B4' },
    ];
    verdictsBy(spy, cars, [{ do: 'request-move', train: 't7', to: 'B4' }]);
    const [after, before] = seen.map(({ trains }) => trains.find(({ train }) => train === 't7')?.beyond);
    expect(before).toEqual(['B3']);
    expect(after).toEqual([]);
  });

  it('are in the way there too', () => {
    const train = (id: string, edge: string, toward: string, block: string, to: string | null) => ({
      train: id,
      lengthMm: 1400,
      trail: [{ edge, toward }],
      head: { edge, toward },
      blocks: [block],
      to,
    });
    const verdict = (beyond: readonly string[]) =>
      lookAhead(railroad, {
        trains: [
          { ...train('t7', 'e5', 'g3', 'B3', null), beyond },
          { ...train('t12', 'e8', 'g4', 'B4', 'B1'), beyond: [] },
        ],
        cuts: [],
      } as unknown as LookAheadSituation).verdict;
    expect(verdict([])).toBe('safe');
    expect(verdict(['B2'])).toBe('gridlock');
  });

  it('follow it when it goes on', () => {
    const t7 = {
      train: 't7',
      lengthMm: 1700,
      trail: [{ edge: 'e7', toward: 'g4' }],
      head: { edge: 'e7', toward: 'g4' },
      blocks: ['B2', 'B3'],
      beyond: ['B3'],
      to: 'B4',
    };
    const t12 = { ...t7, train: 't12', lengthMm: 1400, blocks: ['B1'], beyond: [], to: 'B3' };
    const trail = [{ edge: 'e1', toward: 'g1' }];
    const trains = [t7, { ...t12, trail, head: trail[0] }];
    expect(lookAhead(railroad, { trains, cuts: [] } as unknown as LookAheadSituation).verdict).toBe('safe');
  });
});
