/** Distances in scale miles and kilometres against NMRA's scales, and how far along the railroad things lie. */
import { expect, test } from 'vitest';
import { scaleKilometres, scaleMiles } from '../../shared-model/logbook/distance.ts';
import { modelLengthText } from '../../shared-model/logbook/model-length.ts';
import { distancesFrom, firstNode } from '../../shared-model/logbook/track-distance.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

// NMRA S-1.2 gives the ratios (S 1:64, O 1:48, HO 1:87.1, N 1:160); a mile is 5280 ft, a foot 304.8 mm by definition.
test.each([
  ['O', 48, 110],
  ['S', 64, 82.5],
  ['N', 160, 33],
  ['HO', 87.1, 5280 / 87.1],
])('in %s, 1:%d, a scale mile is %d ft on the model', (_scale, ratio, feet) => {
  expect(scaleMiles(feet * 304.8, ratio)).toBeCloseTo(1, 12);
});

test('in O a scale kilometre is 20.83 m on the model, and a scale mile is 1.609344 of them', () => {
  expect(scaleKilometres(1_000_000 / 48, 48)).toBe(1);
  expect(scaleKilometres(110 * 304.8, 48)).toBeCloseTo(1.609344, 12);
});

test('lengths on the model are feet and inches, or metres', () => {
  expect(modelLengthText(1400, 'imperial')).toBe('4 ft 7 in');
  expect(modelLengthText(304.8, 'imperial')).toBe('1 ft 0 in');
  expect(modelLengthText(1400, 'metric')).toBe('1.40 m');
});

test('distance along the railroad is by the shortest track: 1800 mm to the first gap, by the main and not the siding to the last', () => {
  const railroad = indexRailroad(passingSidingExample);
  const distances = Object.fromEntries(distancesFrom(railroad, firstNode(railroad)));
  // e1 1800, e2 300, e3 2400 (siding: e4 250, e5 2000, e6 250 = 2500), e7 300, e8 1800.
  expect(distances).toEqual({
    n1: 0,
    g1: 1800,
    T1: 2100,
    g2: 2350,
    T2: 4500,
    g3: 4350,
    g4: 4800,
    n2: 6600,
  });
});
