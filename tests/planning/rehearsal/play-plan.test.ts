/** A plan as orders, played through on a fork by the rules of the evening: planner and rules were written apart, and agree. */
import { describe, expect, it } from 'vitest';
import { planFaults } from '../../../shared-model/planning/checker/check-plan.ts';
import type { PlanAnswer } from '../../../shared-model/planning/plan-answer.ts';
import { eveningOfSituation } from '../../../shared-model/planning/rehearsal/fork-evening.ts';
import { ordersOfPlan } from '../../../shared-model/planning/rehearsal/plan-orders.ts';
import { playPlan } from '../../../shared-model/planning/rehearsal/play-plan.ts';
import type { Situation } from '../../../shared-model/planning/situation.ts';
import { planTiming } from '../../../shared-model/planning/timing.ts';
import { demo, SCREEN_OPTIONS, threeTrains, threeTrainsPlan } from '../../support/three-trains.ts';

/** Both supplies in phase, as a check found tonight. */
const CHECKS = [
  { a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.3, at: 0, lapsed: false },
] as never;

function played(situation: Situation, plan: PlanAnswer) {
  expect(planFaults(demo, situation, plan, SCREEN_OPTIONS)).toEqual([]);
  const timing = planTiming(demo, situation, plan, SCREEN_OPTIONS);
  const orders = ordersOfPlan(demo, situation, plan.moves, timing);
  const { evening, problems } = eveningOfSituation(demo, situation, { checks: CHECKS });
  expect(problems).toEqual([]);
  return { orders, ...playPlan(evening, plan, timing, orders) };
}

describe('a plan for three trains, one siding and one yard', () => {
  it.each([1, 2, 3, 4])('(seed %i) is granted, thrown and run by the rules as it stands', (seed) => {
    const situation = threeTrains();
    const plan = threeTrainsPlan(seed);
    const { steps, refused, orders } = played(situation, plan);
    expect(refused.map(({ event }) => [event.input, event.reasons.map(({ says }) => says)])).toEqual([]);
    expect(orders.length).toBeGreaterThanOrEqual(plan.moves.length);
    const end = steps.at(-1)?.state;
    for (const { id, to } of situation.trains) expect(end?.trains[id]?.blocks[0], id).toBe(to);
    expect(Object.values(end?.authorities ?? {}).every(({ state }) => state === 'fulfilled')).toBe(true);
  });

  it('gives each train only what is free when it is given: no order of it asks and waits', () => {
    const { steps } = played(threeTrains(), threeTrainsPlan());
    for (const { state } of steps) expect(state.asks).toEqual([]);
  });

  it('gives each order before its words, and takes what is not free by then as an order of its own', () => {
    const situation = threeTrains();
    const plan = threeTrainsPlan();
    const timing = planTiming(demo, situation, plan, SCREEN_OPTIONS);
    const orders = ordersOfPlan(demo, situation, plan.moves, timing);
    for (const [index, { start }] of plan.moves.entries()) {
      const [first, ...later] = orders.filter(({ move }) => move === index);
      const words = start - SCREEN_OPTIONS.talkSeconds;
      const freeFrom = ({ enters }: (typeof orders)[number]): number =>
        Math.max(
          ...enters.flatMap((stay) =>
            timing.blocks
              .filter(
                (other) =>
                  other.block === stay.block &&
                  other.train !== stay.train &&
                  (other.headIn ?? -1) < (stay.headIn ?? -1),
              )
              .map(({ tailOut }) => tailOut ?? 0),
          ),
          0,
        );
      if (first === undefined) throw new Error(`move ${index} has no order`);
      expect(first.at).toBeCloseTo(Math.max(words, freeFrom(first)), 3);
      for (const order of later) expect(order.at).toBeCloseTo(freeFrom(order), 3);
    }
  });

  it('stops at the order that the rules refuse, and the other trains go on', () => {
    const situation = threeTrains();
    const plan = threeTrainsPlan();
    const timing = planTiming(demo, situation, plan, SCREEN_OPTIONS);
    const orders = ordersOfPlan(demo, situation, plan.moves, timing);
    const { evening } = eveningOfSituation(demo, situation);
    const first = orders.find(({ train }) => train === 't24');
    const { steps, refused } = playPlan(evening, plan, timing, [
      ...orders.filter((order) => order !== first),
      {
        at: 0,
        train: 't24' as never,
        move: 0,
        input: { do: 'request-move', train: 't24' as never, to: 'B16' as never },
        enters: [],
      },
    ]);
    expect(refused.map(({ kind }) => kind)).toContain('order');
    const last = steps.at(-1)?.state;
    expect(last?.trains['t24' as never]?.blocks).toEqual(['B12']);
  });
});
