/** A plan of a rehearsal with all that is shown of it: its times, its faults by the checker, its orders, and how the rules take them. */

import {
  type KeptPlan,
  keepOrder,
  type TrainsUnderWay,
} from '../../shared-model/planning/carry-out/keep-order.ts';
import { type Chart, chartOf } from '../../shared-model/planning/chart/chart-model.ts';
import { type PlanFault, planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import type { PlanAnswer } from '../../shared-model/planning/plan-answer.ts';
import {
  eveningOfSituation,
  type ForkedEvening,
} from '../../shared-model/planning/rehearsal/fork-evening.ts';
import { ordersOfPlan, type PlanOrder } from '../../shared-model/planning/rehearsal/plan-orders.ts';
import { type PlayedPlan, playPlan } from '../../shared-model/planning/rehearsal/play-plan.ts';
import type { Situation } from '../../shared-model/planning/situation.ts';
import { type PlanTiming, planTiming } from '../../shared-model/planning/timing.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Known } from './origin.ts';

/** What is kept of a plan; everything else follows from it. */
export interface PlanKept {
  readonly name: string;
  readonly options: PlanOptions;
  readonly answer: PlanAnswer;
}

export interface PlanSeen {
  readonly timing: PlanTiming;
  readonly faults: readonly PlanFault[];
  readonly chart: Chart;
  readonly orders: readonly PlanOrder[];
  /** As it is carried out: who has each block after whom. */
  readonly kept: KeptPlan;
  readonly played: PlayedPlan;
}

/** The fork that a rehearsal is played on. */
export const forkFor = (railroad: Railroad, situation: Situation, known: Known): ForkedEvening =>
  eveningOfSituation(railroad, situation, known);

export function seePlan(
  railroad: Railroad,
  situation: Situation,
  fork: ForkedEvening,
  { options, answer }: PlanKept,
  underWay: TrainsUnderWay,
): PlanSeen {
  const timing = planTiming(railroad, situation, answer, options);
  const faults = planFaults(railroad, situation, answer, options);
  const orders = ordersOfPlan(railroad, situation, answer.moves, timing);
  return {
    timing,
    faults,
    chart: chartOf(railroad, answer, timing, faults),
    orders,
    kept: keepOrder(railroad, situation, answer, timing, orders, underWay),
    played: playPlan(fork.evening, answer, timing, orders),
  };
}
