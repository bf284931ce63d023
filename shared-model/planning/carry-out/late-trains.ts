/** The trains of a kept plan that are late enough to be told, as far as the reports tell, and who waits for them already. */
import type { TrainId } from '../../ids.ts';
import type { Seconds } from '../../units.ts';
import { behindPlan } from './behind-plan.ts';
import type { HowFar } from './how-far.ts';
import type { KeptPlan } from './keep-order.ts';
import type { Turn } from './whose-turn.ts';

export interface LateTrain {
  readonly train: TrainId;
  /** So long ago it was planned to come into the next block of its way. */
  readonly by: Seconds;
  /** The trains with an order that was due by now and waits for this train to leave a block. */
  readonly keepsWaiting: readonly TrainId[];
}

/**
 * The trains that are behind the plan, the latest first.
 *
 * @param since seconds since the plan's beginning
 * @param turns those of the plan's orders (`turnsOf`)
 * @param least seconds by which a train is behind at least to be told
 */
export function lateTrains(
  plan: KeptPlan,
  far: HowFar,
  turns: readonly Turn[],
  since: Seconds,
  least: Seconds,
): readonly LateTrain[] {
  const waitsFor = (train: TrainId): readonly TrainId[] => [
    ...new Set(
      plan.orders.flatMap(({ order }, place) => {
        const turn = turns[place];
        const isKept = turn?.is === 'held' && turn.until.some((stay) => stay.train === train);
        return isKept && order.at < since ? [order.train] : [];
      }),
    ),
  ];
  return [...behindPlan(plan, far, since)]
    .filter(([, by]) => by >= least)
    .map(([train, by]): LateTrain => ({ train, by, keepsWaiting: waitsFor(train) }))
    .sort((one, other) => other.by - one.by);
}
