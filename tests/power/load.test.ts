/** Loads of a moment and at worst. */
import { expect, test } from 'vitest';
import { type Draw, isOver, loadsOf, supplyLimit, worstOfSupply } from '../../shared-model/power/load.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(passingSidingExample);
const [t7, t12] = passingSidingExample.trains;
const [cab1, cab2, cab3] = passingSidingExample.throttles;
const [k1, k2] = passingSidingExample.selectors;
const [north] = passingSidingExample.supplies;
if (!t7 || !t12 || !cab1 || !cab2 || !cab3 || !k1 || !k2 || !north) throw new Error('the example is whole');

test('each throttle, contact and supply carries the trains on it, and no others', () => {
  const draws: Draw[] = [
    { train: t7.id, amps: 3.2, throttle: cab1.id, selectors: [k1.id] },
    { train: t12.id, amps: 2.8, throttle: cab3.id, selectors: [k1.id, k2.id] },
  ];
  const carried = loadsOf(railroad, draws).map(({ id, amps, limit }) => [id, amps, limit]);
  expect(carried).toEqual([
    ['1', 3.2, 8],
    ['2', 0, 8],
    ['3', 2.8, 8],
    ['K1', 6, 8],
    ['K2', 2.8, 8],
    ['K3', 0, 8],
    ['north', 3.2, 10],
    ['south', 2.8, 10],
  ]);
});

test('a supply gives its VA at its volts', () => {
  expect(supplyLimit({ ratedVa: 180, maxVolts: 18 })).toBe(10);
});

test('at worst a supply has the hungriest train on each of its throttles', () => {
  expect(worstOfSupply(railroad, north.id)).toEqual({ amps: 6, trains: ['t7', 't12'] });
});

test('as much as the limit is not more, also where the sum is a hair off', () => {
  expect(isOver(0.1 + 0.2, 0.3)).toBe(false);
  expect(isOver(0.301, 0.3)).toBe(true);
});
