/** Phase and circulating current against worked values. */
import Complex from 'complex.js';
import { describe, expect, test } from 'vitest';
import { angleInterval } from '../../shared-model/power/angle-interval.ts';
import { breakerAt } from '../../shared-model/power/breaker.ts';
import { bridgingAmps, voltsBetween } from '../../shared-model/power/bridging.ts';
import { checkPhase } from '../../shared-model/power/phase.ts';

describe('volts across from volts and angle', () => {
  // Law of cosines, √(E1² + E2² − 2 E1 E2 cos φ) (three-voltmeter method); 31.177 = 18 √3.
  test.each([
    [18, 18, 0, 0],
    [18, 18, 10, 3.138],
    [18, 18, 120, 31.177],
    [18, 18, 180, 36],
    [18, 12, 0, 6],
    [18, 12, 120, 26.153],
    [18, 12, 180, 30],
  ])('%d V and %d V at %d° are %d V apart', (a, b, degrees, across) => {
    expect(voltsBetween(a, b, degrees)).toBeCloseTo(across, 3);
  });

  // Two legs of a three-phase main: 120 V gives 207.85 V, 230 V gives 398.37 V from line to line.
  test.each([
    [120, 207.85],
    [230, 398.37],
  ])('%d V from two legs are %d V apart', (volts, across) => {
    expect(voltsBetween(volts, volts, 120)).toBeCloseTo(across, 2);
  });
});

describe('angle from three readings', () => {
  // cos φ = (E1² + E2² − Vd²)/(2 E1 E2), worked to two digits; the interval of a meter with tolerance lies round it.
  test.each([
    [16, 12, 20, 90],
    [18, 18, 18, 60],
    [18, 17.5, 3.3, 10.55],
    [14, 14.5, 1.2, 4.39],
    [18, 12, 6, 0],
    [18, 12, 30, 180],
  ])('%d V, %d V and %d V across: %d°', (voltsA, voltsB, voltsAcross, degrees) => {
    const interval = angleInterval({ voltsA, voltsB, voltsAcross });
    expect(interval?.from).toBeLessThanOrEqual(degrees);
    expect(interval?.to).toBeGreaterThanOrEqual(degrees);
    // The angle itself gives these readings back.
    expect(voltsBetween(voltsA, voltsB, degrees)).toBeCloseTo(voltsAcross, 1);
  });

  // Three-voltmeter method with loads in series: 200 V over 100 V and 150 V gives cos φ = 0.25, 75.52°.
  test('200, 100 and 150 V give 75.52°, which is 104.48° between the two as phasors from a common', () => {
    const interval = angleInterval({ voltsA: 100, voltsB: 150, voltsAcross: 200 }, 0);
    expect(interval?.from).toBeGreaterThan(104);
    expect(interval?.to).toBeLessThan(105);
    expect(voltsBetween(100, 150, 180 - 75.5225)).toBeCloseTo(200, 2);
  });
});

describe('current through a bridged gap', () => {
  // 18 V, 180 VA, 4 % impedance: Z = 0.04 × 18²/180 = 0.072 ohm each. I = |E1 − E2∠φ| / (Z1 + Z2).
  const Z = (0.04 * 18 ** 2) / 180;

  test.each([
    [18, 17.5, 0, 3.47, 0.35],
    [18, 18, 120, 216.5, 21.7],
    [18, 18, 180, 250, 25],
  ])('%d V and %d V at %d° drive %d A, %d times the rated 10 A', (a, b, degrees, amps, times) => {
    const reference = new Complex(a)
      .sub(new Complex({ abs: b, arg: (degrees * Math.PI) / 180 }))
      .div(2 * Z)
      .abs();
    expect(bridgingAmps(voltsBetween(a, b, degrees), 2 * Z)).toBeCloseTo(reference, 9);
    expect(bridgingAmps(voltsBetween(a, b, degrees), 2 * Z)).toBeCloseTo(amps, 1);
    expect(breakerAt(bridgingAmps(voltsBetween(a, b, degrees), 2 * Z), 180 / 18).times).toBeCloseTo(times, 1);
  });

  // In phase is not enough: 10 V apart over 0.8 ohm is 12.5 A.
  test('in phase and 10 V apart over 0.8 ohm drives 12.5 A', () => {
    expect(bridgingAmps(10, 0.8)).toBe(12.5);
    expect(checkPhase({ voltsA: 18, voltsB: 8, voltsAcross: 10 })).toMatchObject({
      verdict: 'in-phase',
      matched: false,
    });
  });
});
