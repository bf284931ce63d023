/** Wire, breakers and bridging: what grows with what, and what is said at the limits. */
import { assert, configureGlobal, double, integer, property } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { breakerAt, shortAmps } from '../../shared-model/power/breaker.ts';
import { bridgeOfSupplies, bridgeWithinSupply } from '../../shared-model/power/bridging.ts';
import { dropVolts, gaugeText, ohmsPerMetre, wireOhms } from '../../shared-model/power/wire.ts';
import { judgeDrop, judgeGauge, judgeTrip } from '../../shared-model/power/wire-findings.ts';
import { passingSidingExample } from '../support/example.ts';

// The same seed always draws the same inputs, so that what fails here fails everywhere.
configureGlobal({ seed: 4 });

const run = double({ min: 1, max: 100_000, noNaN: true });
const amps = double({ min: 0.1, max: 30, noNaN: true });
const gauge = integer({ min: -3, max: 39 });

describe('the drop', () => {
  test('grows with the run, falls with a heavier gauge, grows with the heat', () => {
    assert(
      property(gauge, run, run, amps, (awg, one, more, current) => {
        const drop = (piece: { awg: number; run: number }, celsius?: number) =>
          dropVolts({ feederOhms: wireOhms(piece, celsius), returnOhms: 0 }, current);
        expect(drop({ awg, run: one + more })).toBeGreaterThan(drop({ awg, run: one }));
        expect(drop({ awg, run: one })).toBeLessThan(drop({ awg: awg + 1, run: one }));
        expect(drop({ awg, run: one }, 75)).toBeGreaterThan(drop({ awg, run: one }, 20));
      }),
    );
  });

  test('on a shared return comes from all the currents in it, on the feeder from its own alone', () => {
    expect(dropVolts({ feederOhms: 0.1, returnOhms: 0.05 }, 4)).toBeCloseTo(0.6, 12);
    expect(dropVolts({ feederOhms: 0.1, returnOhms: 0.05 }, 4, 6)).toBeCloseTo(0.9, 12);
  });

  test('of several pieces is the sum of theirs', () => {
    const pieces = [
      { awg: 14, run: 3600 },
      { awg: 20, run: 200 },
    ];
    expect(wireOhms(pieces)).toBeCloseTo(3.6 * ohmsPerMetre(14) + 0.2 * ohmsPerMetre(20), 12);
    expect(wireOhms([])).toBe(0);
  });

  test('is judged above five percent, not at it', () => {
    expect(judgeDrop(0.9, 18, 3)).toBeNull();
    expect(judgeDrop(0.91, 18, 3)).toMatchObject({ code: 'voltage-drop', severity: 'warning' });
  });
});

describe('a gauge behind a breaker', () => {
  test.each([
    [18, 7, 'warning'],
    [18, 8, 'error'],
    [16, 10, undefined],
    [16, 11, 'error'],
    [14, 15, undefined],
    [14, 16, 'error'],
    [20, 3, 'warning'],
    [20, 4, 'error'],
    [8, 100, undefined],
  ] as const)('AWG %d behind %d A of track power: %s', (awg, breaker, severity) => {
    expect(judgeGauge({ awg, run: 3000 }, breaker, 'track', false)?.severity).toBe(severity);
  });

  test('a last piece of at most 300 mm below its cap is a warning, a longer one or one in the middle an error', () => {
    expect(judgeGauge({ awg: 20, run: 300 }, 10, 'track', true)?.severity).toBe('warning');
    expect(judgeGauge({ awg: 20, run: 301 }, 10, 'track', true)?.severity).toBe('error');
    expect(judgeGauge({ awg: 20, run: 200 }, 10, 'track', false)?.severity).toBe('error');
  });

  test('light wire is not remarked on for accessories', () => {
    expect(judgeGauge({ awg: 22, run: 3000 }, 3, 'accessory', false)).toBeNull();
  });

  test('the remedy names a gauge that is enough', () => {
    expect(judgeGauge({ awg: 18, run: 3000 }, 15, 'track', false)?.remedy).toContain('AWG 14 or heavier');
  });

  test('gauges heavier than 1 are written as the trade does', () => {
    expect([-3, 0, 1, 14].map(gaugeText)).toEqual(['AWG 4/0', 'AWG 1/0', 'AWG 1', 'AWG 14']);
  });
});

describe('a breaker', () => {
  test.each([
    [10, 'holds'],
    [10.1, 'perhaps-never'],
    [13.4, 'perhaps-never'],
    [13.5, 'slowly'],
    [19.9, 'slowly'],
    [20, 'surely'],
    [Number.POSITIVE_INFINITY, 'surely'],
  ] as const)('of 10 A at %d A: %s', (current, opens) => {
    expect(breakerAt(current, 10).opens).toBe(opens);
  });

  test('a short of less than twice its rating is an error, and below 1.35 times it may never open', () => {
    expect(judgeTrip(20, 10)).toBeNull();
    expect(judgeTrip(19, 10)).toMatchObject({
      severity: 'error',
      says: expect.stringContaining('may take minutes'),
    });
    expect(judgeTrip(13, 10)).toMatchObject({
      severity: 'error',
      says: expect.stringContaining('may never open'),
    });
  });

  test('the short at the far end is limited by all the resistance in the loop', () => {
    expect(shortAmps(18, 0.2 + 0.4)).toBeCloseTo(30, 12);
    expect(shortAmps(18, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('a bridged gap', () => {
  const [north, south] = passingSidingExample.supplies;
  if (north === undefined || south === undefined) throw new Error('the example has two supplies');

  test('between two supplies tells the current against each breaker', () => {
    const bridge = bridgeOfSupplies(north, south, 36);
    expect(bridge.amps).toBeCloseTo(90, 9);
    expect(bridge.breakers.map(({ of, opens }) => [of, opens])).toEqual([
      ['north', 'surely'],
      ['south', 'surely'],
    ]);
    expect(bridge.protectedBy).toBe('breaker');
  });

  test('with little across opens nothing, and says so', () => {
    const bridge = bridgeOfSupplies(north, south, 2);
    expect(bridge.amps).toBeCloseTo(5, 9);
    expect(bridge.protectedBy).toBe('nothing');
    expect(bridge.says).toContain('neither breaker opens');
  });

  test('with nothing across carries nothing, even without any resistance', () => {
    const ideal = { ...north, impedanceOhms: 0 };
    expect(bridgeOfSupplies(ideal, { ...south, impedanceOhms: 0 }, 0).amps).toBe(0);
    expect(bridgeOfSupplies(ideal, { ...south, impedanceOhms: 0 }, 1).amps).toBe(Number.POSITIVE_INFINITY);
  });

  test('within one supply claims no current, and is not protected without a breaker of the throttle', () => {
    const [one, two] = passingSidingExample.throttles;
    if (one === undefined || two === undefined) throw new Error('the example has three throttles');
    const bare = bridgeWithinSupply(north, [one, two]);
    expect(bare).toMatchObject({
      amps: null,
      protectedBy: 'nothing',
      says: expect.stringContaining('not protected'),
    });
    const guarded = bridgeWithinSupply(north, [{ ...one, breakerAmps: 7 }, two]);
    expect(guarded).toMatchObject({
      amps: null,
      protectedBy: 'breaker',
      says: expect.stringContaining('Cab 1'),
    });
  });
});
