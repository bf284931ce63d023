/**
 * A plan carried out by a crew with other delays than late starts, and on other plans. How exactly model engineers run, talk and throw is
 * common practice, no source: up to a tenth slower at each start, words of 6 to 10 s, throws of 3 to 5 s, each drawn evenly.
 */
import { describe, expect, it } from 'vitest';
import { USUAL_OPTIONS } from '../../../shared-model/planning/plan/options.ts';
import { type Chance, chanceOf } from '../../support/chance.ts';
import type { CrewDelays } from '../../support/crew/crew-wishes.ts';
import {
  carried,
  expectGood,
  lateUpTo,
  MEETS,
  meets,
  THREE,
  toggledMeets,
} from '../../support/crew/rehearsed.ts';

const evenly = (chance: Chance, low: number, high: number): number =>
  low + ((high - low) * chance.between(0, 1000)) / 1000;

const SLOWER = (chance: Chance): CrewDelays => ({ lateBy: () => 0, pace: () => evenly(chance, 0.9, 1) });
const TALKATIVE = (chance: Chance): CrewDelays => ({ lateBy: () => 0, talks: () => evenly(chance, 6, 10) });
const SLOW_HANDS = (chance: Chance): CrewDelays => ({
  lateBy: () => 0,
  throwsFor: () => evenly(chance, 3, 5),
});
const ALL_AT_ONCE = (chance: Chance): CrewDelays => ({
  ...SLOWER(chance),
  ...TALKATIVE(chance),
  ...SLOW_HANDS(chance),
  lateBy: () => evenly(chance, 0, 3),
});

/** Carries plans out, each with some draws; the share of the planned total that is lost over all, and in the worst run. */
function lost(plans: typeof MEETS, delays: (chance: Chance) => CrewDelays, seeds = [1, 2]) {
  let planned = 0;
  let happened = 0;
  let worst = 0;
  for (const [index, the] of plans.entries())
    for (const seed of seeds) {
      const ways = delays(chanceOf(seed * 1000 + index));
      const done = carried(the, ways.lateBy, ways);
      expectGood(the, done, `${index}, ${seed}`);
      const plan = the.answer.total ?? 0;
      planned += plan;
      happened += done.total;
      worst = Math.max(worst, done.total / plan - 1);
    }
  expect(planned).toBeGreaterThan(0);
  return { overAll: happened / planned - 1, worst };
}

describe('a plan carried out by a crew', () => {
  const plans = [THREE, ...MEETS];

  it('that runs up to a tenth slower has no conflict, and loses at most that over all', () => {
    const { overAll, worst } = lost(plans, SLOWER);
    expect(overAll).toBeLessThanOrEqual(0.1);
    expect(worst).toBeLessThanOrEqual(0.15);
  });

  it('whose words take longer than planned has no conflict, and loses at most 15 % over all', () => {
    expect(lost(plans, TALKATIVE).overAll).toBeLessThanOrEqual(0.15);
  });

  it('whose hands take a third longer than planned, as a mean, has no conflict, and loses no more than that over all', () => {
    expect(lost(plans, SLOW_HANDS).overAll).toBeLessThanOrEqual(1 / 3);
  });

  it('that is late, slow, talkative and slow of hand at once has no conflict', () => {
    expect(lost(plans, ALL_AT_ONCE).overAll).toBeGreaterThan(0);
  });

  it('of a plan made without words and starts, late by 0 to 3 s, loses at most 15 % every time', () => {
    const usual = meets(USUAL_OPTIONS);
    expect(lost(usual, () => ({ lateBy: () => 0 }), [1]).worst).toBeLessThanOrEqual(0.01);
    expect(lost(usual, (chance) => ({ lateBy: () => evenly(chance, 0, 3) })).worst).toBeLessThanOrEqual(0.15);
  });

  it('through sections behind toggles, late by 0 to 3 s or a minute, has no conflict', () => {
    const toggled = toggledMeets();
    const throws = toggled.flatMap(({ answer }) => answer.throws.map(({ kind }) => kind));
    expect(throws).toContain('toggle');
    for (const [index, the] of toggled.entries())
      for (const seconds of [3, 60]) expectGood(the, carried(the, lateUpTo(seconds, index)), `${index}`);
  });
});
