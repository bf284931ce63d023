/** Rules as their words say them, found in long comparisons of two implementations, each shown by a short evening in which both agree. */
import { describe, expect, test } from 'vitest';
import { drawn } from '../proofs/hand-railroads.ts';
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
  stands,
  toggled,
  told,
  turned,
} from '../support/told.ts';

const line = handRailroad('half wired line');
const siding = handRailroad('passing siding');
const stub = handRailroad('nested toggles on a stub');
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

  test('keeps its authority when the train is reported where that began', () => {
    const within = [...running('1'), placed('t1', 'e2:g1', '1'), moved('t1', 'e4'), at('t1', 'e2:g1')];
    expect(told(balloons, within).answer.authorities.a1?.state).toBe('granted');
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

describe('a block that came with picked-up cars', () => {
  test('is an entered one like any other once the head has come into it: a clear of it is not adjacent', () => {
    const cars = { do: 'set-out', train: 't2', cut: 'c1', length: 200, edge: 'e2', toward: 'g2' };
    const picked = [
      ...running('1'),
      placed('t2', 'e1:g1', '1'),
      cars,
      { do: 'pick-up', train: 't2', cut: 'c1' },
      moved('t2', 'B2', { overhang: true }),
      readBack('a1'),
    ];
    expect(told(stub, [...picked, cleared('t2', 'B2')]).lines.at(-1)).toEqual(['done']);
    expect(told(stub, [...picked, entered('t2', 'B2'), cleared('t2', 'B2')]).lines.at(-1)).toEqual([
      'alarm',
      ['not-adjacent', 't2', 'B2'],
    ]);
  });
});

describe('bridging', () => {
  test('stands while any train bridges the gap, also when the one that raised it has gone', () => {
    const across = [
      ...running('1', '2'),
      placed('t1', 'e1:g1', '1'),
      stands('K1', '1'),
      stands('K2', '2'),
      entered('t1', 'B2'),
    ];
    expect(told(siding, across).lines.at(-1)).toContainEqual(['bridging', 'g1']);
    const another = [...across, at('t3', 'e1:g1'), entered('t3', 'B2')];
    expect(told(siding, another).lines.at(-1)).not.toContainEqual(['bridging', 'g1']);
    const firstGone = [...another, at('t1', 'e7:g4')];
    expect(told(siding, firstGone).answer.alarms).toContainEqual({ code: 'bridging', about: ['g1'] });
    const bothGone = [...firstGone, at('t3', 'e1:n1')];
    expect(told(siding, bothGone).answer.alarms.map(({ code }) => code)).not.toContain('bridging');
  });
});

describe('a section behind a toggle that is on', () => {
  test('is live under a train whose limits occupy it, wherever it stands in them', () => {
    const worked = [
      ...running('1', '2'),
      placed('t3', 'e1:g1', '1'),
      limits('t3', 'B2', 'B3'),
      turned('K1', '1'),
      turned('K2', '1'),
      toggled('H1', true),
      readBack('a1'),
      placed('t2', 'e4:n2', '2'),
      limits('t2', 'B2', 'B3'),
    ];
    expect(told(stub, worked).lines.at(-1)).toContainEqual(['section-live', 'H1', 't3']);
  });
});

describe('a change of cab', () => {
  test('turns a selector that feeds two of the blocks under the train once to each position', () => {
    const shared = drawn({
      name: 'two blocks on one selector',
      edges: ['e1 n1 g1 500', 'e2 g1 n2 600'],
      blocks: ['B1 e1 K1', 'B2 e2 K1'],
      dials: ['K1 off 1 2'],
    });
    const change = { do: 'change-cab', train: 't1', cab: '2' };
    const lit = [...running('1', '2'), placed('t1', 'e2:n2', '1'), turned('K1', '1'), change];
    expect(told(shared, lit).last.throws).toMatchObject([
      { id: 'K1', to: 'off', waitsFor: [] },
      { id: 'K1', to: '2', waitsFor: ['K1'] },
    ]);
  });
});

describe('a train whose place is unknown', () => {
  test('stays so when a block behind its head is settled as open: it gets no move until it is reported somewhere', () => {
    const lost = [
      ...running('1'),
      placed('t3', 'e1:g1', '1'),
      entered('t3', 'B2'),
      entered('t3', 'B4'),
      { do: 'settle', block: 'B2', state: 'open' },
    ];
    expect(told(line, [...lost, moved('t3', 'B3')]).lines.at(-1)).toEqual(['refused', ['not-now', 't3']]);
    const found = [...lost, at('t3', 'e3:g3'), moved('t3', 'B2')];
    expect(told(line, found).lines.at(-1)).not.toContainEqual(['not-now', 't3']);
  });
});

describe('the parent that a train holds from a section that it is in without right', () => {
  test('is told as owned by the cab of that train, not by that of the section', () => {
    const astray = [
      ...running('1', '2'),
      placed('t1', 'e3:g2', '2'),
      placed('t2', 'e1:n1', '1'),
      limits('t2', 'B1', 'B2'),
      entered('t2', 'B4'),
      moved('t1', 'B2', { overhang: true }),
    ];
    expect(told(stub, astray).lines.at(-1)).toEqual([
      'refused',
      ['block-owned', 'B2', 't2', '1'],
      ['block-owned', 'B3', 't2', '1'],
    ]);
  });
});
