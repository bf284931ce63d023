/** Plans that a simulated crew carries out: the three trains of the demo, and meets on lines with stations; and what has to be true of it afterwards. */
import { expect } from 'vitest';
import { drawsFrom } from '../../../shared-model/chance.ts';
import {
  type KeptPlan,
  keepOrder,
  type TrainsUnderWay,
} from '../../../shared-model/planning/carry-out/keep-order.ts';
import { planFaults } from '../../../shared-model/planning/checker/check-plan.ts';
import type { PlanOptions } from '../../../shared-model/planning/plan/options.ts';
import { plan } from '../../../shared-model/planning/plan.ts';
import type { PlanAnswer } from '../../../shared-model/planning/plan-answer.ts';
import { eveningOfSituation } from '../../../shared-model/planning/rehearsal/fork-evening.ts';
import { ordersOfPlan } from '../../../shared-model/planning/rehearsal/plan-orders.ts';
import { playPlan } from '../../../shared-model/planning/rehearsal/play-plan.ts';
import type { Situation } from '../../../shared-model/planning/situation.ts';
import { type PlanTiming, planTiming } from '../../../shared-model/planning/timing.ts';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import type { Throw } from '../../../shared-model/session/state.ts';
import { chanceOf } from '../chance.ts';
import { randomSituation } from '../random-situation.ts';
import { stationsTrack, withCrews } from '../step-track.ts';
import { demo, SCREEN_OPTIONS, threeTrains, threeTrainsPlan } from '../three-trains.ts';
import { wrongAsReported } from './as-reported.ts';
import type { Carried, CrewWishes } from './crew-wishes.ts';
import type { AheadThrow } from './hold-back.ts';
import { touchedBy } from './pair-of-hands.ts';
import { carryOut } from './simulated-crew.ts';

/** Both supplies in phase, as a check found tonight. */
const CHECKS = [
  { a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.3, at: 0, lapsed: false },
] as never;
/** An order is given a little before its time, so that hands and voice are not late for it. */
const AHEAD_SECONDS = 15;

interface Rehearsed {
  readonly throwsAhead: readonly AheadThrow[];
  readonly railroad: Railroad;
  readonly situation: Situation;
  readonly answer: PlanAnswer;
  readonly kept: KeptPlan;
  readonly options: PlanOptions;
}

/** The plan's throws as whoever has the plan before him does them: by who has left what, and by no clock. */
function throwsAhead(
  railroad: Railroad,
  { throws }: PlanAnswer,
  { blocks: stays }: PlanTiming,
): readonly AheadThrow[] {
  return stays.flatMap(({ train, block, throws: own }) =>
    own.flatMap((place): readonly AheadThrow[] => {
      const thrown = throws[place];
      if (thrown === undefined) return [];
      const { at, kind, id, to } = thrown;
      const one = { kind, id, to, block, waitsFor: [] } as unknown as Throw;
      const before = stays.filter(
        ({ block: touched, tailOut }) =>
          tailOut !== null && tailOut <= at + 0.01 && touchedBy(railroad, one).includes(touched),
      );
      const after = before.map((stay) => ({
        train: stay.train,
        block: stay.block,
        times: before.filter((other) => other.train === stay.train && other.block === stay.block).length,
      }));
      return [{ train, one, at, after }];
    }),
  );
}

/** A plan kept as an order; like every plan of the tests it goes through the independent checker. */
export function rehearsed(
  railroad: Railroad,
  situation: Situation,
  answer: PlanAnswer,
  underWay?: TrainsUnderWay,
  options: PlanOptions = SCREEN_OPTIONS,
): Rehearsed {
  expect(planFaults(railroad, situation, answer, options)).toEqual([]);
  const timing = planTiming(railroad, situation, answer, options);
  const orders = ordersOfPlan(railroad, situation, answer.moves, timing);
  return {
    throwsAhead: throwsAhead(railroad, answer, timing),
    railroad,
    situation,
    answer,
    options,
    kept: keepOrder(railroad, situation, answer, timing, orders, underWay),
  };
}

export const forked = ({ railroad, situation }: Rehearsed): Evening =>
  eveningOfSituation(railroad, situation, { checks: CHECKS }).evening;

/** Late by up to so many seconds, the same for the same seed. */
export const lateUpTo = (seconds: number, seed: number) => {
  const chance = chanceOf(seed);
  return () => chance.between(0, seconds * 10) / 10;
};

export function carried(
  the: Rehearsed,
  lateBy: CrewWishes['lateBy'],
  more: Partial<CrewWishes> = {},
  evening = forked(the),
): Carried {
  return carryOut(the.railroad, the.situation, the.kept, evening, the.options, {
    lateBy,
    aheadSeconds: AHEAD_SECONDS,
    throwsAhead: the.throwsAhead,
    plannedStart: (order) => the.answer.moves[the.kept.orders[order]?.order.move ?? -1]?.start ?? 0,
    ...more,
  });
}

/** Everything done by the rules, nothing too near, everybody there. */
export function expectGood(the: Rehearsed, done: Carried, name: string): void {
  const { railroad, situation, kept, options: planned } = the;
  const bad = done.events.filter(({ outcome }) => outcome !== 'done');
  expect(
    bad.map(({ input, reasons }) => [input, reasons.map(({ says }) => says)]),
    name,
  ).toEqual([]);
  expect(done.given, name).toHaveLength(kept.orders.length);
  expect(wrongAsReported(railroad, situation, done.begun.state, done, planned), name).toEqual([]);
  // Whose words came when was looked at: a late start is not where the words end.
  const options = { ...planned, talkSeconds: 0 };
  if (done.keptTimes) expect(planFaults(railroad, situation, done, options), name).toEqual([]);
  const { trains, authorities } = done.evening.state;
  for (const { id, to } of situation.trains)
    if (to !== null) expect(trains[id]?.blocks[0], `${name}: ${id}`).toBe(to);
  expect(
    Object.values(authorities).every(({ state }) => state === 'fulfilled'),
    name,
  ).toBe(true);
}

/** Random meets of two to four trains on a railroad that are planned, and that the rules take as they are planned. */
function meetsOn(railroad: Railroad, options: PlanOptions, seeds: readonly number[]): readonly Rehearsed[] {
  return seeds.flatMap((seed) => {
    const made = randomSituation(railroad, chanceOf(seed), { trains: 2 + (seed % 3), reachable: true });
    if (made === null) return [];
    const answer = plan(railroad, made.situation, options, {
      draw: drawsFrom(seed),
      shouldStop: () => false,
      patience: 60,
    });
    if (answer.verdict !== 'planned') return [];
    const the = rehearsed(railroad, made.situation, answer, undefined, options);
    const timing = planTiming(railroad, made.situation, answer, options);
    const orders = the.kept.orders.map(({ order }) => order);
    return playPlan(forked(the), answer, timing, orders).refused.length === 0 ? [the] : [];
  });
}

const tenFrom = (first: number): readonly number[] => Array.from({ length: 10 }, (_, index) => first + index);

/** Meets on lines with stations. */
export const meets = (options: PlanOptions): readonly Rehearsed[] =>
  [
    [1, 2, 1, 2, 1],
    [2, 1, 2, 1, 2],
    [1, 1, 2, 1, 3, 1],
    [3, 1, 1, 2, 1, 3],
  ].flatMap((stations, line) =>
    meetsOn(indexRailroad(withCrews(stationsTrack(stations), 4)), options, tenFrom(line * 10 + 1)),
  );
export const MEETS = meets(SCREEN_OPTIONS);
export const THREE = rehearsed(demo, threeTrains(), threeTrainsPlan());

/** Meets on a line whose stations have one track each that is a section behind a toggle, fed through the plain track beside it. */
export function toggledMeets(): readonly Rehearsed[] {
  const document = withCrews(stationsTrack([1, 2, 1, 2, 1]), 4);
  const parents = new Map([
    ['S1b', 'P0'],
    ['S3b', 'P4'],
  ]);
  const blocks = document.blocks.map((block) => {
    const from = parents.get(block.id);
    return from === undefined ? block : { ...block, source: { toggle: `H-${block.id}`, from } };
  });
  const toggles = [...parents.keys()].map((block) => ({ id: `H-${block}`, name: `Hold ${block}` }));
  const selectors = document.selectors.filter(({ name }) => !parents.has(name));
  return meetsOn(
    indexRailroad({ ...document, blocks, toggles, selectors } as typeof document),
    SCREEN_OPTIONS,
    Array.from({ length: 40 }, (_, index) => index + 1),
  );
}
