/** Wire against published tables: resistance by gauge, voltage drop, and the caps on breakers. */
import { describe, expect, test } from 'vitest';
import {
  breakerCap,
  DROP_LIMIT_PERCENT,
  dropVolts,
  gaugeArea,
  gaugeDiameter,
  ohmsPerMetre,
  wireOhms,
} from '../../shared-model/power/wire.ts';

const METRES_PER_KILOFOOT = 304.8;
const FOOT_MM = 304.8;
const INCH_MM = 25.4;

/** Relative distance of a computed value from a published one. */
const off = (computed: number, published: number): number => Math.abs(computed - published) / published;

describe('the gauge formula', () => {
  // ASTM B258: No. 36 is 0.0050 in, 4/0 is 0.4600 in; the diameters between are those of NBS Handbook 100 (1966), Copper Wire Tables.
  test.each([
    [36, 0.005],
    [-3, 0.46],
    [10, 0.1019],
    [12, 0.0808],
    [14, 0.0641],
    [16, 0.0508],
    [18, 0.0403],
    [20, 0.032],
    [22, 0.0253],
    [24, 0.0201],
  ])('AWG %d is %d inches thick', (awg, inches) => {
    expect(off(gaugeDiameter(awg) / INCH_MM, inches)).toBeLessThan(0.0025);
  });

  // The same tables, in millimetres, square millimetres and circular mils (a circular mil is the square of a thousandth of an inch).
  test.each([
    [10, 2.588, 5.261, 10_383],
    [12, 2.053, 3.309, 6530],
    [14, 1.628, 2.081, 4107],
    [16, 1.291, 1.309, 2583],
    [18, 1.024, 0.823, 1624],
    [20, 0.812, 0.518, 1022],
    [22, 0.644, 0.326, 642],
    [24, 0.511, 0.205, 404],
  ])('AWG %d is %d mm thick, %d mm², %d circular mils', (awg, mm, mm2, cmil) => {
    expect(off(gaugeDiameter(awg), mm)).toBeLessThan(0.001);
    expect(off(gaugeArea(awg), mm2)).toBeLessThan(0.0025);
    expect(off((gaugeDiameter(awg) / INCH_MM) ** 2 * 1_000_000, cmil)).toBeLessThan(0.001);
  });

  // ASTM B258: the step from gauge to gauge is the 39th root of 92, 1.1229322.
  test('each gauge is 1.1229322 times as thick as the next, and ten gauges have 10.16 times the resistance', () => {
    expect(gaugeDiameter(14) / gaugeDiameter(15)).toBeCloseTo(1.122_932_2, 7);
    expect(ohmsPerMetre(24) / ohmsPerMetre(14)).toBeCloseTo(10.16, 2);
  });

  // MOROP's module standard: 1.5 mm² for buses and 0.5 mm² for drops to the rail; the nearest gauges are 16 and 20.
  test.each([
    [1.5, 16],
    [0.5, 20],
  ])('%d mm² is nearest to AWG %d of the even gauges', (mm2, nearest) => {
    const ratio = (awg: number) => Math.abs(Math.log(gaugeArea(awg) / mm2));
    const even = [10, 12, 14, 16, 18, 20, 22, 24].sort((one, other) => ratio(one) - ratio(other));
    expect(even[0]).toBe(nearest);
  });

  // ASTM B258: six gauges halve the diameter, three halve the area.
  test('six gauges halve the diameter and three halve the area', () => {
    expect(gaugeDiameter(10) / gaugeDiameter(16)).toBeCloseTo(2.005, 3);
    expect(gaugeArea(10) / gaugeArea(13)).toBeCloseTo(2.005, 3);
  });
});

describe('resistance of copper', () => {
  // NBS Handbook 100 (1966), Copper Wire Tables: ohms per 1000 ft at 20 °C.
  test.each([
    [10, 0.9989],
    [12, 1.588],
    [14, 2.525],
    [16, 4.016],
    [18, 6.385],
    [20, 10.15],
    [22, 16.14],
    [24, 25.67],
  ])('AWG %d has %d ohm in 1000 ft at 20 °C', (awg, ohms) => {
    expect(off(ohmsPerMetre(awg) * METRES_PER_KILOFOOT, ohms)).toBeLessThan(0.0005);
  });

  // The same in ohms per kilometre at 20 °C, computed from IEC 60028 and ASTM B258.
  test.each([
    [10, 3.277],
    [12, 5.211],
    [14, 8.286],
    [16, 13.17],
    [18, 20.95],
    [20, 33.31],
    [22, 52.96],
    [24, 84.22],
  ])('AWG %d has %d ohm in a kilometre at 20 °C', (awg, ohms) => {
    expect(off(ohmsPerMetre(awg) * 1000, ohms)).toBeLessThan(0.0005);
  });

  // NEC chapter 9, table 8: solid, uncoated copper at 75 °C, ohms per 1000 ft. Printed to three figures.
  test.each([
    [10, 1.21],
    [12, 1.93],
    [14, 3.07],
    [16, 4.89],
    [18, 7.77],
  ])('AWG %d has %d ohm in 1000 ft at 75 °C', (awg, ohms) => {
    expect(off(ohmsPerMetre(awg, 75) * METRES_PER_KILOFOOT, ohms)).toBeLessThan(0.005);
  });

  // The same at 75 °C for the gauges that the table does not have: the 20 °C value times 1.21615 (IEC 60028, α = 0.00393 /K).
  test.each([20, 22, 24])('AWG %d at 75 °C is 1.21615 times that at 20 °C', (awg) => {
    expect(ohmsPerMetre(awg, 75) / ohmsPerMetre(awg, 20)).toBeCloseTo(1.216_15, 9);
  });

  // IEC 60028: 1/58 Ω·mm²/m for annealed copper at 20 °C.
  test('a metre of one square millimetre has 1/58 ohm', () => {
    expect(ohmsPerMetre(14) * gaugeArea(14)).toBeCloseTo(1 / 58, 12);
  });
});

describe('voltage drop', () => {
  // Drop = 2 × one-way length × R × I at 18 V, 20 °C, 25 ft one way, 3 A (computed from the tables above).
  test.each([
    [18, 0.958, 5.32],
    [16, 0.602, 3.35],
    [14, 0.379, 2.1],
    [12, 0.238, 1.32],
  ])('AWG %d, 25 ft, 3 A: %d V, %d %% of 18 V', (awg, volts, percent) => {
    const oneWay = wireOhms({ awg, run: 25 * FOOT_MM });
    const drop = dropVolts({ feederOhms: oneWay, returnOhms: oneWay }, 3);
    expect(drop).toBeCloseTo(volts, 3);
    expect((drop / 18) * 100).toBeCloseTo(percent, 1);
  });

  test('AWG 18, 40 ft, 5 A: 2.55 V, 14.2 %', () => {
    const oneWay = wireOhms({ awg: 18, run: 40 * FOOT_MM });
    const drop = dropVolts({ feederOhms: oneWay, returnOhms: oneWay }, 5);
    expect(drop).toBeCloseTo(2.55, 2);
    expect((drop / 18) * 100).toBeCloseTo(14.2, 1);
  });

  // The usual NEC style of example: 2 × 100/1000 × 3.07 × 10 = 6.14 V.
  test('AWG 14 at 75 °C, 100 ft, 10 A: 6.14 V', () => {
    const oneWay = wireOhms({ awg: 14, run: 100 * FOOT_MM }, 75);
    expect(off(dropVolts({ feederOhms: oneWay, returnOhms: oneWay }, 10), 6.14)).toBeLessThan(0.005);
  });

  // NEC 215.2(A) Informational Note 2: 5 % for feeder and branch circuit together; a recommendation (NEC 90.5(C)).
  test('the limit is five percent', () => {
    expect(DROP_LIMIT_PERCENT).toBe(5);
  });
});

describe('the cap on the overcurrent device', () => {
  // NEC 240.4(D), copper.
  test.each([
    [18, 7],
    [16, 10],
    [14, 15],
    [12, 20],
    [10, 30],
  ])('AWG %d: %d A', (awg, amps) => {
    expect(breakerCap(awg)).toBe(amps);
  });

  // Common practice, no source.
  test.each([19, 20, 22, 24])('AWG %d: 3 A', (awg) => {
    expect(breakerCap(awg)).toBe(3);
  });

  test('a gauge between two has the cap of the lighter, one heavier than AWG 10 none', () => {
    expect([11, 13, 15, 17].map(breakerCap)).toEqual([20, 15, 10, 7]);
    expect([9, 0, -3].map(breakerCap)).toEqual([null, null, null]);
  });
});
