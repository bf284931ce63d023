/** `cabward wire`: shapes, exit statuses, and what is said to wrong figures. */
import { describe, expect, test } from 'vitest';
import { wire } from '../../electron/command-line/wire.ts';

const good = { awg: '14', run: '7620', amps: '3', volts: '18' };

test('answers for the loop out and back in one gauge', () => {
  // 25 ft of AWG 14 at 3 A and 18 V: 0.379 V, 2.10 % (computed from the copper tables, see tests/published).
  const answer = wire(good);
  expect(answer.exit).toBe(0);
  expect(answer.json).toEqual({
    ohms: expect.closeTo(0.1263, 4),
    dropVolts: expect.closeTo(0.379, 3),
    dropPercent: expect.closeTo(2.1, 1),
    shortAmps: expect.closeTo(142.55, 1),
    findings: [],
  });
});

test('is warmer, and so drops more, at the temperature given', () => {
  const { ohms } = wire({ ...good, celsius: '75' }).json as { ohms: number };
  expect(ohms).toBeCloseTo(0.1263 * 1.21615, 4);
});

test('a breaker above the cap of the gauge is an error: exit 1, errors first', () => {
  const answer = wire({ ...good, awg: '18', breaker: '10' });
  expect(answer).toMatchObject({
    exit: 1,
    json: {
      findings: [
        { code: 'undersized-wire', severity: 'error', about: [] },
        { code: 'voltage-drop', severity: 'warning', about: [] },
      ],
    },
  });
});

test('a short that does not open the breaker is an error', () => {
  const answer = wire({ awg: '14', run: '80000', amps: '0.5', volts: '18', breaker: '10' });
  expect(answer).toMatchObject({ exit: 1, json: { findings: [{ code: 'slow-trip', severity: 'error' }] } });
});

test('warnings alone are no bad answer', () => {
  expect(wire({ ...good, awg: '18', run: '1000' })).toMatchObject({
    exit: 0,
    json: { findings: [{ code: 'undersized-wire', severity: 'warning' }] },
  });
});

describe('wrong figures', () => {
  test.each([
    [{ ...good, awg: '13.5' }, '--awg'],
    [{ ...good, awg: '41' }, '--awg'],
    [{ ...good, awg: '-4' }, '--awg'],
    [{ ...good, awg: 'thick' }, '--awg'],
    [{ ...good, run: '0' }, '--run'],
    [{ ...good, run: '-5' }, '--run'],
    [{ ...good, amps: '0' }, '--amps'],
    [{ ...good, amps: '3A' }, '--amps'],
    [{ ...good, volts: '0' }, '--volts'],
    [{ ...good, volts: '1e6' }, '--volts'],
    [{ ...good, breaker: '0' }, '--breaker'],
    [{ ...good, celsius: '-300' }, '--celsius'],
    [{ awg: '14', run: '1000', amps: '3' }, '--volts'],
  ])('%o are an input error in one line that names the option', (given, option) => {
    const answer = wire(given);
    expect(answer).toMatchObject({
      exit: 2,
      text: expect.stringMatching(new RegExp(`^${option}: expected `)),
    });
    expect(answer.text).not.toContain('\n');
  });
});
