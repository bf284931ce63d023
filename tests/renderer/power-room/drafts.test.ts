/** What the power room makes of what is typed, kept and on record. */
import { describe, expect, test } from 'vitest';
import { aged, dated } from '../../../renderer/power-room/dated-check.ts';
import { figureIn } from '../../../renderer/power-room/figure-box.tsx';
import {
  draftFor,
  FIRST_DRAFT,
  readingsOf,
  recordedOtherwise,
  verdictOf,
} from '../../../renderer/power-room/guided-draft.ts';
import { keptCautions } from '../../../renderer/power-room/kept-cautions.ts';
import { RUN_UNITS, runText } from '../../../renderer/power-room/run-unit.ts';
import { FIRST_WIRE, halfABus, wireFigures } from '../../../renderer/power-room/wire-draft.ts';
import { longestRun, wireResult } from '../../../renderer/power-room/wire-result.ts';
import { READING } from '../../../shared-model/power/ranges.ts';
import { passingSidingExample } from '../../support/example.ts';

const [north, south] = passingSidingExample.supplies;
if (north === undefined || south === undefined) throw new Error('the example has two supplies');

describe('a figure', () => {
  test('may have a comma for the point', () => {
    expect(figureIn('0,4', READING)).toBe(0.4);
    expect(figureIn('', READING)).toBeNull();
    expect(figureIn('1.000,5', READING)).toBeNull();
  });
});

describe('the guided check', () => {
  const typed = { ...FIRST_DRAFT, voltsA: '18', voltsB: '18', voltsAcross: '31,2' };

  test('has readings once all of them are figures', () => {
    expect(readingsOf({ ...typed, voltsB: '' })).toBeNull();
    expect(readingsOf(typed)).toEqual({ voltsA: 18, voltsB: 18, voltsAcross: 31.2, tolerancePercent: 2 });
  });

  test('judges full handles, so that waves not known to be sine get a verdict of different legs', () => {
    const readings = readingsOf(typed);
    if (readings === null) throw new Error('three readings');
    expect(verdictOf(readings, north, south, 1).verdict).toBe('different-legs');
  });

  test('forgets what was ticked and typed when another pair is chosen, but not the cautions or the meter', () => {
    const chosen = {
      ...typed,
      cautionsRead: true,
      tolerance: '10',
      commons: true,
      ...draftFor('north', 'south'),
    };
    expect(chosen).toMatchObject({
      a: 'north',
      b: 'south',
      commons: false,
      voltsA: '',
      cautionsRead: true,
      tolerance: '10',
    });
  });

  test('is not recorded where the record would judge otherwise', () => {
    const wide = { voltsA: 18, voltsB: 18, voltsAcross: 5.5, tolerancePercent: 10 };
    const answer = verdictOf(wide, north, south, 1);
    expect(answer.verdict).toBe('unclear');
    expect(recordedOtherwise(wide, answer, true)).toContain('would call this in phase');
    // While no evening goes on the meter's tolerance is kept with the readings.
    expect(recordedOtherwise(wide, answer, false)).toBeNull();
    const exact = { ...wide, tolerancePercent: 2 };
    expect(recordedOtherwise(exact, verdictOf(exact, north, south, 1), true)).toBeNull();
    const direct = verdictOf(exact, { ...north, wave: 'dc' }, south, 1);
    expect(recordedOtherwise(exact, direct, false)).toContain('takes sine waves');
  });
});

describe('what is kept', () => {
  test('of a check has a moment and an age', () => {
    const check = { a: north.id, b: south.id, voltsA: 18, voltsB: 18, voltsAcross: 0.4, lapsed: false };
    const opened = Date.parse('2026-11-25T19:00:00.000Z');
    const checks = dated([{ ...check, at: -60 }], opened);
    expect(checks).toEqual([{ ...check, measuredAt: opened - 60_000 }]);
    expect(aged(checks, opened + 60_000)[0]?.age).toBe(120);
  });

  test('of cautions tells the texts shown, newest first', () => {
    const read = [
      { id: '1', at: '2026-11-25T19:00:00.000Z', value: { step: 'print', shown: ['old'] } },
      { id: '2', at: '2026-11-25T20:00:00.000Z', value: { step: 'phase-check', shown: ['new'] } },
      { id: '3', at: '2026-11-25T20:00:00.000Z', value: { step: 'nowhere', shown: ['x'] } },
    ];
    expect(keptCautions(read).map(({ shown }) => shown)).toEqual([['new'], ['old']]);
  });
});

describe('the wire calculator', () => {
  const feet = RUN_UNITS.imperial;
  const figures = (more: Partial<typeof FIRST_WIRE>) => wireFigures({ ...FIRST_WIRE, ...more }, feet);

  const result = (more: Partial<typeof FIRST_WIRE>) => {
    const given = figures(more);
    if (given === null) throw new Error('figures');
    return wireResult(given);
  };

  test('takes feet or metres', () => {
    expect(figures({})?.pieces[0]?.run).toBeCloseTo(7620, 9);
    expect(wireFigures(FIRST_WIRE, RUN_UNITS.metric)?.pieces).toEqual([{ awg: 14, run: 25_000 }]);
    expect(runText(7620, feet)).toBe('25 ft');
  });

  test('waits while a figure is wrong, also one that may be left out', () => {
    expect(figures({ pieces: [{ awg: '13.5', run: '25' }] })).toBeNull();
    expect(figures({ pieces: [...FIRST_WIRE.pieces, { awg: '20', run: '' }] })).toBeNull();
    expect(figures({ busAwg: '12' })).toBeNull();
    expect(halfABus({ ...FIRST_WIRE, busAwg: '12' })).toBe(true);
    expect(figures({ breaker: 'x' })).toBeNull();
    expect(figures({ impedance: '-1' })).toBeNull();
    expect(figures({ breaker: '' })?.breakerAmps).toBeNull();
  });

  test('adds what others send through the return, and the impedance of the supply to the short', () => {
    const [alone, shared] = [result({}), result({ others: '3', impedance: '0.25' })];
    // Feeder 3 A, return 3 + 3 A: half as much again.
    expect(shared.drop / alone.drop).toBeCloseTo(1.5, 9);
    expect(shared.short).toBeCloseTo(18 / (alone.ohms + 0.25), 9);
  });

  test('adds up several pieces, and judges each, the last one leniently', () => {
    const light = { awg: '20', run: '0.5' };
    const out = [...FIRST_WIRE.pieces, light];
    expect(result({ pieces: out }).ohms).toBeCloseTo(result({}).ohms + result({ pieces: [light] }).ohms, 9);
    const ranks = (pieces: typeof FIRST_WIRE.pieces) =>
      result({ pieces, breaker: '10' }).judgements.map(({ code, severity }) => `${code} ${severity}`);
    expect(ranks(out)).toEqual(['undersized-wire warning']);
    expect(ranks([light, ...FIRST_WIRE.pieces])).toEqual(['undersized-wire error']);
  });

  test('comes back by a common bus where one is given, which is judged too', () => {
    const bus = { busAwg: '20', busRun: '10' };
    const back = result({ pieces: [{ awg: '20', run: '10' }] }).ohms / 2;
    expect(result(bus).ohms).toBeCloseTo(result({}).ohms / 2 + back, 9);
    expect(result({ ...bus, breaker: '10' }).judgements).toMatchObject([
      { code: 'undersized-wire', severity: 'error', says: expect.stringContaining('AWG 20') },
    ]);
  });

  test('tells the longest run for a share of the volts, the rest of the wire staying as it is', () => {
    for (const more of [
      {},
      { pieces: [{ awg: '20', run: '3' }, ...FIRST_WIRE.pieces] },
      { busAwg: '12', busRun: '30' },
    ]) {
      const given = figures(more);
      if (given === null) throw new Error('figures');
      const longest = longestRun(given, 14, 5);
      const pieces = given.pieces.map((piece) => (piece.awg === 14 ? { awg: 14, run: longest } : piece));
      expect(wireResult({ ...given, pieces }).dropPercent).toBeCloseTo(5, 9);
    }
    const wasted = figures({ pieces: [{ awg: '20', run: '24' }, ...FIRST_WIRE.pieces], amps: '10' });
    if (wasted === null) throw new Error('figures');
    expect(longestRun(wasted, 14, 5)).toBe(0);
  });
});
