/** What of a kept plan the orders in force cover, whoever gave them: read from the state alone, so that nothing has to be remembered beside the log. */
import type { TrainId } from '../../ids.ts';
import { authorityOf } from '../../session/facts/authorities.ts';
import type { SessionState } from '../../session/state.ts';
import type { HowFar } from './how-far.ts';
import type { KeptPlan } from './keep-order.ts';

/** How many blocks of its way a train has entered or has an order into, as far as that order keeps to its way. */
function reach(plan: KeptPlan, far: HowFar, train: TrainId, state: SessionState): number {
  const way = plan.ways.get(train) ?? [];
  const entered = far.get(train)?.entered ?? 0;
  const held = authorityOf(state, train)?.authority;
  if (held === undefined || held.kind !== 'move') return entered;
  const ahead = held.legs.slice(held.at + 1).map(({ block }) => block);
  const differs = ahead.findIndex((block, index) => way[entered + index] !== block);
  return entered + (differs < 0 ? ahead.length : differs);
}

/**
 * The orders of a plan that need not be given any more: run, or in force to their end.
 *
 * @returns their places in the plan's list
 */
export function coveredIn(plan: KeptPlan, far: HowFar, state: SessionState): ReadonlySet<number> {
  return new Set(
    plan.orders.flatMap(({ order, enters }, place) => {
      const last = enters.at(-1);
      return last !== undefined && reach(plan, far, order.train, state) > last ? [place] : [];
    }),
  );
}

/** Whether every train has run every order of the plan. */
export const isCarriedOut = ({ orders }: KeptPlan, far: HowFar): boolean =>
  orders.every(({ order, enters }) => (far.get(order.train)?.entered ?? 0) > (enters.at(-1) ?? -1));
