/** Rules that once were read too narrowly, each shown by a short evening in which both implementations agree. */
import { describe, expect, test } from 'vitest';
import { drawn } from '../proofs/hand-railroads.ts';
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
const crossed = drawn({
  name: 'line that crosses itself',
  edges: [
    'e1 n1 g1 1500',
    'e2 g1 X1 500',
    'e3 X1 T1 500',
    'e4 T1 n3 500',
    'e5 T1 g2 500',
    'e6 g2 X1 700',
    'e7 X1 n2 900',
  ],
  turnouts: ['T1 e3 e4 e5'],
  crossings: ['X1 e2 e3 e6 e7 !'],
  blocks: ['B1 e1 K1', 'B2 e2 K2', 'B3 e6 K3'],
  dials: ['K1 off 1 2 3', 'K2 off 1 2 3', 'K3~ off 1 2'],
  throttles: ['1 north 3.3', '2 north 8'],
  trains: ['t1 400 1.1', 't2 1200 2.2', 't3 400 2.3'],
});
const balloons = drawn({
  name: 'balloons at both ends of one block',
  edges: ['e1 T1 T2 1500', 'e2 T1 g1 900', 'e3 g1 T1 900', 'e4 T2 g2 900', 'e5 g2 T2 900'],
  turnouts: ['T1 e1 e2 e3', 'T2 e1 e4 e5'],
  blocks: ['B1 e1 K1'],
  dials: ['K1 off 1 2 3'],
});

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

describe('turnouts and crossings', () => {
  test('are told in the order of passing; one that is passed again, where the way through it is barred', () => {
    const over = [
      ...running('1', '2'),
      placed('t2', 'e4:n3', '2'),
      placed('t1', 'e1:g1', '1'),
      moved('t1', 'e7'),
    ];
    expect(told(crossed, over).lines.at(-1)).toEqual([
      'refused',
      ['block-occupied', 'B2', 't2'],
      ['turnout-locked', 'T1'],
      ['crossing-taken', 'X1'],
    ]);
  });
});

describe('a load', () => {
  const both = [...running('1', '2'), placed('t1', 'e1:g1', '1')];

  test('as large as the throttle carries is not more, though 1.1 A and 2.2 A are a hair above 3.3 A in binary fractions', () => {
    const asked = moved('t1', 'B2', { together: ['t2'] });
    expect(told(crossed, [...both, asked]).lines.at(-1)).toEqual(['done']);
  });

  test('that is larger is refused', () => {
    const asked = moved('t1', 'B2', { together: ['t3'] });
    expect(told(crossed, [...both, asked]).lines.at(-1)).toEqual(['refused', ['overload', '1']]);
  });
});

describe('a gap with one block on both sides', () => {
  test('makes a stretch to run within the block, and its turnouts count when the authority is lengthened', () => {
    const within = [...running('1'), placed('t1', 'e2:g1', '1'), moved('t1', 'e4')];
    const { last } = told(balloons, within);
    expect(last).toMatchObject({ outcome: 'done', authority: 'a1' });
    expect(told(balloons, [...within, moved('t1', 'e3')]).lines.at(-1)).toEqual([
      'refused',
      ['no-route', 't1', 'B1'],
    ]);
  });
});

describe('a hand-off of the block that a train stands in', () => {
  test('is checked for all its blocks, the contacts that carry the train too', () => {
    const heavy = { do: 'make-up', train: 't3', length: 400, amps: 7 };
    const agreed = { do: 'hand-off', train: 't3', block: 'B1', toCab: '2' };
    expect(
      told(line, [...running('1', '2'), placed('t3', 'e1:g1', '1'), heavy, agreed]).lines.at(-1),
    ).toEqual(['refused', ['overload', 'K1'], ['overload', 'north']]);
  });
});
