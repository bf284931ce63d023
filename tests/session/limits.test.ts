/** Working limits: what they hold, what is inside them, what ends them. */
import { describe, expect, test } from 'vitest';
import {
  at,
  cleared,
  entered,
  handRailroad,
  limits,
  moved,
  placed,
  readBack,
  running,
  toggled,
  told,
  turned,
} from '../support/told.ts';

const stub = handRailroad('nested toggles on a stub');
const siding = handRailroad('passing siding');

describe('limits on a section behind a section', () => {
  const worked = [
    ...running('1'),
    placed('t2', 'e4:n2', '1'),
    limits('t2', 'B4'),
    readBack('a1'),
    turned('K2', '1'),
    toggled('H1', true),
    toggled('H2', true),
  ];
  const states = (...more: Parameters<typeof toggled>[]): readonly string[] =>
    Object.values(told(stub, [...worked, ...more.map((one) => toggled(...one))]).answer.blocks).map(
      ({ state }) => state,
    );

  test('hold both parents while the toggles are on', () => {
    expect(states()).toEqual(['open', 'lined', 'lined', 'occupied']);
  });

  test('give back the parent and the parent behind it when the own toggle is off', () => {
    expect(states(['H2', false])).toEqual(['open', 'open', 'open', 'occupied']);
  });

  test('give back only the outer parent when its own toggle is off', () => {
    expect(states(['H1', false])).toEqual(['open', 'open', 'pledged', 'occupied']);
  });
});

describe('a train with limits', () => {
  const worked = [
    ...running('1'),
    placed('t2', 'e5:g3', '1'),
    limits('t2', 'B2', 'B3'),
    readBack('a1'),
    turned('K2', '1'),
  ];

  test('changes nothing by entering and clearing inside', () => {
    const { lines, answer } = told(siding, [...worked, entered('t2', 'B2'), cleared('t2', 'B3')]);
    expect(lines.slice(-2)).toEqual([['done'], ['done']]);
    expect(answer.trains.t2?.blocks).toEqual(['B3']);
  });

  test('is outside in a block that it enters from them, and stays so until that is settled', () => {
    const out = [...worked, entered('t2', 'B1'), { do: 'note', text: 'look' }];
    const { lines, answer } = told(siding, out);
    expect(lines.at(-2)).toEqual(['alarm', ['entered-unauthorised', 't2', 'B1']]);
    expect(answer.alarms).toEqual([{ code: 'entered-unauthorised', about: ['t2', 'B1'] }]);
    expect(answer.authorities.a1?.state).toBe('acknowledged');
    const released = { do: 'release-limits', train: 't2', edge: 'e1', toward: 'n1' };
    expect(told(siding, [...out, released]).lines.at(-1)).toEqual(['refused', ['not-now', 't2']]);
    const settled = told(siding, [...out, { do: 'settle', block: 'B1', state: 'open' }]);
    expect(settled.answer.alarms).toEqual([]);
  });

  test('keeps them when it is corrected inside, and loses them outside', () => {
    expect(told(siding, [...worked, at('t2', 'e7:g4')]).answer.authorities.a1?.state).toBe('acknowledged');
    expect(told(siding, [...worked, at('t2', 'e8:n2')]).answer.authorities.a1?.state).toBe('annulled');
  });
});

describe('a refused grant of limits', () => {
  test('does not wait as an ask, and leaves an ask of the train alone', () => {
    const blocked = [...running('1', '3'), placed('t1', 'e5:g3', '1'), placed('t2', 'e8:n2', '3')];
    const refused = told(siding, [...blocked, limits('t1', 'B3', 'B2', 'B4')]);
    expect(refused.lines.at(-1)).toEqual(['refused', ['block-occupied', 'B4', 't2']]);
    expect(refused.answer.asks).toEqual([]);
    const asked = told(siding, [...blocked, moved('t1', 'B4'), limits('t1', 'B3', 'B2', 'B4')]);
    expect(asked.answer.asks).toEqual([{ train: 't1', to: 'B4', free: false }]);
  });

  test('names a turnout only where the authority of another train locks it, not for what lies on it', () => {
    const lying = [...running('1', '2'), placed('t2', 'e7:g4', '2'), placed('t1', 'e1:g1', '1')];
    expect(told(siding, [...lying, limits('t1', 'B1', 'B2')]).lines.at(-1)).toEqual([
      'refused',
      ['block-occupied', 'B2', 't2'],
    ]);
    const granted = [...running('1', '3'), placed('t1', 'e5:g3', '1'), placed('t2', 'e8:g4', '3')];
    const locked = told(siding, [
      ...granted,
      moved('t1', 'B2', { overhang: true }),
      limits('t2', 'B4', 'B2'),
    ]);
    expect(locked.lines.at(-1)).toEqual([
      'refused',
      ['block-owned', 'B2', 't1', '1'],
      ['turnout-locked', 'T2'],
    ]);
  });
});
