/** The worst moment of each throttle, contact and supply: over moments of any kind, and over a plan. */
import { describe, expect, test } from 'vitest';
import type { PlanMove } from '../../shared-model/planning/plan-answer.ts';
import { planPeaks } from '../../shared-model/planning/plan-load.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import type { Draw } from '../../shared-model/power/load.ts';
import { peakLoads } from '../../shared-model/power/peak-load.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { passingSidingExample } from '../support/example.ts';

const railroad = indexRailroad(passingSidingExample);
const [t7, t12] = passingSidingExample.trains;
const [cab1, cab2, cab3] = passingSidingExample.throttles;
const [k1, k2] = passingSidingExample.selectors;
if (!t7 || !t12 || !cab1 || !cab2 || !cab3 || !k1 || !k2) throw new Error('the example is whole');

const draw = (train: typeof t7, amps: number, throttle: typeof cab1, ...selectors: (typeof k1)[]): Draw => ({
  train: train.id,
  amps,
  throttle: throttle.id,
  selectors: selectors.map(({ id }) => id),
});

describe('the worst moment', () => {
  test('is that of the highest load, of each thing by itself, the first of equal ones', () => {
    const peaks = peakLoads(railroad, [
      { at: 10, draws: [draw(t7, 3, cab1, k1)] },
      { at: 20, draws: [draw(t7, 3, cab1, k2), draw(t12, 2, cab2, k1)] },
      { at: 30, draws: [draw(t12, 4, cab3, k1, k2)] },
    ]);
    const told = Object.fromEntries(peaks.map(({ id, amps, at }) => [id, [amps, at]]));
    expect(told).toMatchObject({
      1: [3, 10],
      2: [2, 20],
      3: [4, 30],
      K1: [4, 30],
      K2: [4, 30],
      K3: [0, 0],
      north: [5, 20],
      south: [4, 30],
    });
  });

  test('is none where nothing ever flowed', () => {
    expect(peakLoads(railroad, []).every(({ amps, at }) => amps === 0 && at === 0)).toBe(true);
  });
});

test('a plan loads a supply with the moves that overlap, a throttle with its own train, a contact with who starts from or enters its block', () => {
  const read = parseSituation(railroad, {
    trains: [
      { train: 't7', edge: 'e1', toward: 'g1', cab: '1', to: 'B2' },
      { train: 't12', edge: 'e5', toward: 'g2', cab: '2', to: 'B1' },
    ],
  });
  if (!read.ok) throw new Error(read.malformed.says);
  const block = (index: number) =>
    passingSidingExample.blocks[index]?.id ?? passingSidingExample.blocks[0]?.id;
  const move = (train: typeof t7, start: number, end: number, ...indexes: number[]): PlanMove => ({
    train: train.id,
    blocks: indexes.flatMap((index) => block(index) ?? []),
    start,
    end,
    edges: [],
  });
  const most = (...moves: PlanMove[]) =>
    Object.fromEntries(
      planPeaks(railroad, read.value, { moves }).map(({ id, amps, at }) => [id, [amps, at]]),
    );
  // No. 7 from B1 to B2, No. 12 from B3 to B2 and B1: half open, so the first pair does not overlap.
  expect(most(move(t7, 0, 20, 1), move(t12, 20, 30, 1, 0))).toMatchObject({
    1: [t7.amps, 0],
    2: [t12.amps, 20],
    3: [0, 0],
    north: [Math.max(t7.amps, t12.amps), t7.amps < t12.amps ? 20 : 0],
    K1: [Math.max(t7.amps, t12.amps), t7.amps < t12.amps ? 20 : 0],
    K3: [t12.amps, 20],
  });
  expect(most(move(t7, 0, 20, 1), move(t12, 19, 30, 1, 0))).toMatchObject({
    north: [t7.amps + t12.amps, 19],
  });
  // Its second move starts from where the first ended: the knob of B1 carries nothing any more.
  expect(most(move(t7, 0, 20, 1), move(t7, 40, 50, 3))).toMatchObject({ K1: [t7.amps, 0], K2: [t7.amps, 0] });
});
