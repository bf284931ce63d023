/** How late the trains of a kept plan are, as far as the reports tell, and who waits for them already. */
import type { TrainId } from '../../ids.ts';
import type { Seconds } from '../../units.ts';
import type { PlanTiming } from '../timing.ts';
import type { HowFar } from './how-far.ts';
import type { KeptPlan } from './keep-order.ts';
import type { Turn } from './whose-turn.ts';

export interface Behind {
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
export function behindPlan(
  { ways, orders }: KeptPlan,
  { blocks }: Pick<PlanTiming, 'blocks'>,
  far: HowFar,
  turns: readonly Turn[],
  since: Seconds,
  least: Seconds,
): readonly Behind[] {
  const waitsFor = (train: TrainId): readonly TrainId[] => [
    ...new Set(
      orders.flatMap(({ order }, place) => {
        const turn = turns[place];
        const isKept = turn?.is === 'held' && turn.until.some((stay) => stay.train === train);
        return isKept && order.at < since ? [order.train] : [];
      }),
    ),
  ];
  return [...far]
    .flatMap(([train, { entered }]): readonly Behind[] => {
      const stays = blocks.filter((stay) => stay.train === train);
      // What the plan does not know of, since it was run by an earlier order, comes first on the way.
      const next = stays[entered - ((ways.get(train)?.length ?? 0) - stays.length)];
      if (next == null || next.headIn === null || since < next.headIn + least) return [];
      return [{ train, by: since - next.headIn, keepsWaiting: waitsFor(train) }];
    })
    .sort((one, other) => other.by - one.by);
}
