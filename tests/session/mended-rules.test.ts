/** Rules that once were read too narrowly, each shown by a short evening in which both implementations agree. */
import { describe, expect, test } from 'vitest';
import {
  at,
  cleared,
  entered,
  handRailroad,
  moved,
  phased,
  placed,
  readBack,
  running,
  stands,
  told,
  turned,
} from '../support/told.ts';

const balloon = handRailroad('balloon with a spring turnout');
const line = handRailroad('half wired line');
const ladder = handRailroad('yard ladder with holding sections');
const siding = handRailroad('passing siding');

describe('a self-lining turnout', () => {
  test('is moved by a train that trails it without an authority, and the place of that train stays known', () => {
    const trailed = [...running('1'), placed('t3', 'e5:g4', '1'), entered('t3', 'B3')];
    const { answer } = told(balloon, trailed);
    expect(answer.turnouts.T1?.position).toBe('reverse');
    expect(told(balloon, [...trailed, moved('t3', 'B2', { overhang: true })]).lines.at(-1)).toEqual(['done']);
  });

  test('need not stand for a train that trails it: a balloon can be run round in one move, with no throw for the way out', () => {
    const round = [...running('1'), placed('t3', 'e2:g2', '1'), moved('t3', 'B2')];
    const { last, answer } = told(balloon, round);
    expect(answer.authorities.a1?.blocks).toEqual(['B3', 'B4', 'B3', 'B2']);
    expect(last.throws?.filter(({ kind }) => kind === 'turnout')).toEqual([]);
  });

  test('is lined for the way in first, though it is trailed on the way out', () => {
    const against = { do: 'throw-turnout', turnout: 'T1', position: 'reverse' };
    const round = [...running('1'), placed('t3', 'e2:g2', '1'), against, moved('t3', 'B2')];
    const granted = told(balloon, round);
    expect(granted.last.throws?.filter(({ kind }) => kind === 'turnout')).toMatchObject([
      { id: 'T1', to: 'normal', block: 'B3', waitsFor: [] },
    ]);
    const thrown = { do: 'throw-turnout', turnout: 'T1', position: 'normal' };
    expect(told(balloon, [...round, thrown]).lines.at(-1)).toEqual(['done']);
    const backAgain = [...round, thrown, against];
    expect(told(balloon, backAgain).lines.at(-1)).toEqual(['refused', ['turnout-locked', 'T1']]);
  });
});

describe('a hand-off', () => {
  const agreed = [
    ...running('1', '2'),
    placed('t3', 'e1:g1', '1'),
    { do: 'hand-off', train: 't3', block: 'B2', toCab: '2' },
  ];

  test('takes effect when the train is corrected to a place behind the agreed gap', () => {
    const { lines, answer } = told(line, [...agreed, at('t3', 'e2:g2')]);
    expect(lines.at(-1)).toEqual(['done']);
    expect(answer.trains.t3).toEqual({ blocks: ['B2'], cab: '2' });
    expect(answer.blocks.B2).toEqual({ state: 'occupied', cab: '2', train: 't3' });
  });

  test('is kept beside one for another block: one request goes over a straight-wired block and back', () => {
    const back = { do: 'hand-off', train: 't3', block: 'B3', toCab: '1' };
    const { lines, answer } = told(line, [...agreed, back, moved('t3', 'B3')]);
    expect(lines.at(-1)).toEqual(['done']);
    expect([answer.blocks.B2?.cab, answer.blocks.B3?.cab]).toEqual(['2', '1']);
  });

  test('excuses no bridge between supplies that are not known to be in phase any more', () => {
    const over = [
      ...running('1', '3'),
      phased('north', 'south'),
      placed('t3', 'e3:g3', '1'),
      turned('K3', '1'),
      { do: 'hand-off', train: 't3', block: 'B4', toCab: '3' },
      moved('t3', 'B4'),
      readBack('a1'),
      entered('t3', 'B4'),
    ];
    expect(told(line, over).lines.at(-1)).toEqual(['done']);
    const unplugged = told(line, [...over, { do: 'supply-replugged', supply: 'south' }]);
    expect(unplugged.lines.at(-1)).toEqual(['alarm', ['bridging', 'g3']]);
  });

  test('over a gap whose phase check lapsed stands as unphased-ahead until a good check or the end, also when the head has crossed it', () => {
    const ahead = [
      ...running('1', '3'),
      phased('north', 'south'),
      placed('t3', 'e3:g3', '1'),
      { do: 'hand-off', train: 't3', block: 'B4', toCab: '3' },
      moved('t3', 'B4'),
      readBack('a1'),
      { do: 'supply-replugged', supply: 'north' },
    ];
    const alarm = { code: 'unphased-ahead', about: ['g3', 'north', 'south'] };
    expect(told(line, ahead).answer.alarms).toEqual([alarm]);
    expect(told(line, [...ahead, entered('t3', 'B4')]).answer.alarms).toContainEqual(alarm);
    const checked = told(line, [...ahead, entered('t3', 'B4'), phased('north', 'south')]);
    expect(checked.answer.alarms).not.toContainEqual(alarm);
    const cleaned = told(line, [...ahead, entered('t3', 'B4'), cleared('t3', 'B3')]);
    expect(cleaned.answer.authorities.a1?.state).toBe('fulfilled');
    expect(cleaned.answer.alarms).not.toContainEqual(alarm);
  });
});

describe('where a train stands', () => {
  test('a block settled as its own is across the first gap that joins it with any block of the train', () => {
    const { lines } = told(ladder, [
      ...running('1'),
      placed('t1', 'e2:T1'),
      placed('t1', 'e1:g1', '1'),
      placed('t3', 'e9:g4', '1'),
      turned('K1', '1'),
      entered('t1', 'B2'),
      { do: 'derailed', train: 't3' },
      { do: 'settle', block: 'B5', state: 'occupied', train: 't1' },
      { do: 'settle', block: 'B2', state: 'occupied', train: 't1' },
      turned('K2', '1'),
      stands('K3', '2'),
    ]);
    expect(lines.at(-1)).toEqual(['alarm', ['wrong-throttle', 'B5', '2'], ['bridging', 'g4']]);
  });

  test('a correction in a disputed block that it was in already raises nothing new, whatever feeds it', () => {
    const { lines } = told(siding, [
      ...running('1', '2'),
      placed('t2', 'e1:g1', '1'),
      turned('K2', '2'),
      entered('t2', 'B2'),
      at('t2', 'e7:g4'),
    ]);
    expect(lines.at(-1)).toEqual(['done']);
  });

  test('a recounted train that covers every block behind has fulfilled its authority', () => {
    const run = [
      ...running('1'),
      placed('t3', 'e5:g3', '1'),
      moved('t3', 'B2', { overhang: true }),
      readBack('a1'),
      entered('t3', 'B2'),
    ];
    expect(told(siding, run).answer.authorities.a1?.state).toBe('running');
    const longer = { do: 'make-up', train: 't3', length: 600, amps: 2 };
    expect(told(siding, [...run, longer]).answer.authorities.a1?.state).toBe('fulfilled');
  });
});

describe('throws', () => {
  test('of the block that the train stands in wait for the first block ahead, but no two wait for each other', () => {
    const stub = handRailroad('nested toggles on a stub');
    const waiting = (from: string, to: string) =>
      told(stub, [
        ...running('1'),
        placed('t1', from, '1'),
        moved('t1', to, { overhang: true }),
      ]).last.throws?.map(({ id, waitsFor }) => [id, waitsFor]);
    expect(waiting('e3:g2', 'B2')).toEqual([
      ['K2', []],
      ['H1', ['K2']],
      ['H2', ['K2']],
    ]);
    expect(waiting('e3:g3', 'B4')).toEqual([
      ['K2', ['H2']],
      ['H1', ['K2', 'H2']],
      ['H2', []],
    ]);
  });

  test('still needed on an extension include turnouts that were passed standing wrong', () => {
    const run = [
      ...running('1'),
      placed('t1', 'e9:g4', '1'),
      moved('t1', 'B2', { overhang: true }),
      readBack('a1'),
      entered('t1', 'B2'),
      moved('t1', 'B1', { overhang: true }),
    ];
    expect(told(ladder, run).last.throws?.map(({ id, block }) => [id, block])).toEqual([
      ['K3', 'B5'],
      ['K2', 'B2'],
      ['T2', 'B2'],
      ['T1', 'B2'],
      ['K1', 'B1'],
    ]);
  });
});

describe('a position that is not wired', () => {
  test('is refused as an order, and cannot be found to stand there', () => {
    const asked = { do: 'turn-selector', selector: 'K4', position: null };
    expect(told(siding, [...running('1'), asked]).lines.at(-1)).toEqual([
      'refused',
      ['cab-not-wired', 'B4', 'null'],
    ]);
    expect(() => told(siding, [...running('1'), { ...asked, do: 'selector-stands-at' }])).toThrow();
  });
});
