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
import { FIRST_WIRE, longestRun, wireFigures, wireResult } from '../../../renderer/power-room/wire-draft.ts';
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

  test('takes feet or metres', () => {
    expect(figures({})?.runMm).toBeCloseTo(7620, 9);
    expect(wireFigures(FIRST_WIRE, RUN_UNITS.metric)?.runMm).toBe(25_000);
    expect(runText(7620, feet)).toBe('25 ft');
  });

  test('waits while a figure is wrong, also one that may be left out', () => {
    expect(figures({ awg: '13.5' })).toBeNull();
    expect(figures({ breaker: 'x' })).toBeNull();
    expect(figures({ impedance: '-1' })).toBeNull();
    expect(figures({ breaker: '' })?.breakerAmps).toBeNull();
  });

  test('adds what others send through the return, and the impedance of the supply to the short', () => {
    const alone = figures({});
    const shared = figures({ others: '3', impedance: '0.25' });
    if (alone === null || shared === null) throw new Error('figures');
    // Feeder 3 A, return 3 + 3 A: half as much again.
    expect(wireResult(shared).drop / wireResult(alone).drop).toBeCloseTo(1.5, 9);
    expect(wireResult(shared).short).toBeCloseTo(18 / (wireResult(alone).ohms + 0.25), 9);
  });

  test('tells the longest run for a share of the volts', () => {
    const given = figures({});
    if (given === null) throw new Error('figures');
    const longest = longestRun(given, 14, 5);
    expect(wireResult({ ...given, runMm: longest }).dropPercent).toBeCloseTo(5, 9);
  });
});
