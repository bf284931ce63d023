/** `cabward phase`: shapes, exit statuses, and what is said to wrong readings. */
import { describe, expect, test } from 'vitest';
import { phase } from '../../electron/command-line/phase.ts';

const readings = (voltsA: string, voltsB: string, voltsAcross: string) => ({ voltsA, voltsB, voltsAcross });

describe('one check', () => {
  test('answers verdict, degrees and a sentence, and says what it assumes', () => {
    const answer = phase(readings('18', '18', '0.4'));
    expect(answer.exit).toBe(0);
    expect(answer.json).toEqual({
      verdict: 'in-phase',
      degrees: { from: 0, to: expect.closeTo(1.949, 3) },
      says: expect.stringContaining('Sine waves and ±2 % of each reading, at least ±0.2 V are assumed.'),
    });
  });

  test.each([
    ['reversed', '18', '18', '36'],
    ['different-legs', '18', '18', '31.2'],
    ['inconsistent', '18', '18', '50'],
    ['unclear', '16', '12', '20'],
    ['unclear', '0', '18', '18'],
  ])('%s is a bad answer: exit 1', (verdict, a, b, across) => {
    const answer = phase(readings(a, b, across));
    expect(answer).toMatchObject({ exit: 1, json: { verdict } });
  });

  test('no angle is told where none fits', () => {
    expect(phase(readings('18', '18', '50')).json).toMatchObject({ degrees: { from: null, to: null } });
  });

  test('the tolerance is taken as given', () => {
    expect(phase({ ...readings('18', '18', '5.5'), tolerance: '10' }).json).toMatchObject({
      verdict: 'unclear',
    });
  });
});

describe('wrong readings', () => {
  test.each([
    [readings('-18', '18', '0.4'), '--volts-a', '-18'],
    [readings('18', 'eighteen', '0.4'), '--volts-b', 'eighteen'],
    [readings('18', '18', ''), '--volts-across', ''],
    [readings('18', '18', '1e9'), '--volts-across', '1e9'],
    [readings('18', '18', 'NaN'), '--volts-across', 'NaN'],
    [readings('18', '18', 'Infinity'), '--volts-across', 'Infinity'],
    [readings('0x12', '18', '1'), '--volts-a', '0x12'],
    [{ ...readings('18', '18', '1'), tolerance: '-1' }, '--tolerance', '-1'],
    [{ ...readings('18', '18', '1'), tolerance: '90' }, '--tolerance', '90'],
  ])('%o are an input error in one line that names the option and what was given', (given, option, value) => {
    const answer = phase(given);
    expect(answer.exit).toBe(2);
    expect(answer.text).toContain(`${option}: expected a number of`);
    expect(answer.text).toContain(`not "${value}"`);
    expect(answer.text).not.toContain('\n');
  });

  test('a missing reading is said to be missing', () => {
    expect(phase({ voltsA: '18', voltsB: '18' })).toMatchObject({
      exit: 2,
      text: expect.stringContaining('missing'),
    });
  });
});

describe('several checks', () => {
  test('are combined, each with its own verdict', () => {
    const answer = phase({ check: ['a:b:18:18:36', 'b:c:18:18:36', 'c:d:18:18:0.4'] });
    expect(answer).toMatchObject({
      exit: 1,
      json: {
        checks: [{ a: 'a', b: 'b', verdict: 'reversed' }, { verdict: 'reversed' }, { verdict: 'in-phase' }],
        pairs: [
          { a: 'a', b: 'b', relation: 'reversed' },
          { a: 'a', b: 'c', relation: 'in-phase' },
          { a: 'a', b: 'd', relation: 'in-phase' },
          { a: 'b', b: 'c', relation: 'reversed' },
          { a: 'b', b: 'd', relation: 'reversed' },
          { a: 'c', b: 'd', relation: 'in-phase' },
        ],
        contradictions: [],
      },
    });
  });

  test('all in phase is a good answer', () => {
    expect(phase({ check: ['a:b:18:18:0.4', 'b:c:18:17.5:0.6'] }).exit).toBe(0);
  });

  test('that contradict each other are named and leave their pairs unknown', () => {
    const answer = phase({ check: ['a:b:18:18:0.4', 'b:c:18:18:0.4', 'a:c:18:18:36'] });
    expect(answer.exit).toBe(1);
    expect(answer.json).toMatchObject({
      pairs: [{ relation: 'unknown' }, { relation: 'unknown' }, { relation: 'unknown' }],
    });
    const { contradictions } = answer.json as { contradictions: string[][][] };
    expect(contradictions).toHaveLength(1);
    expect(contradictions[0]).toHaveLength(3);
    expect(answer.text).toContain('contradict each other');
  });

  test.each(['a:b:18:18', 'a:b:18:18:x', 'a:a:18:18:1', ':b:18:18:1', 'a:b:18:18:1:2', 'a:b:-1:18:1'])(
    '"%s" is an input error in one line',
    (check) => {
      const answer = phase({ check: [check] });
      expect(answer).toMatchObject({ exit: 2, text: expect.stringMatching(/^--check.*expected/) });
    },
  );

  test('do not go together with single readings', () => {
    expect(phase({ ...readings('18', '18', '1'), check: ['a:b:18:18:1'] }).exit).toBe(2);
  });
});
