/** How late the trains of a plan are against its times. The times are a forecast: a late train breaks nothing of the order. */
import type { TrainId } from '../../ids.ts';
import type { Seconds } from '../../units.ts';
import type { HowFar } from './how-far.ts';
import type { KeptPlan } from './keep-order.ts';

/** When each train was to enter each block of its way, by the place on that way. */
function forecast({ orders }: KeptPlan): ReadonlyMap<TrainId, ReadonlyMap<number, Seconds>> {
  const found = new Map<TrainId, Map<number, Seconds>>();
  for (const { order, enters } of orders) {
    const own = found.get(order.train) ?? new Map<number, Seconds>();
    for (const [index, place] of enters.entries()) {
      const at = order.enters[index]?.headIn;
      if (at != null) own.set(place, at);
    }
    found.set(order.train, own);
  }
  return found;
}

/**
 * Seconds by which each train is behind: since it was to enter the block that it enters next.
 *
 * @param since seconds since the plan's beginning
 * @returns only trains that are behind and have somewhere to go still
 */
export function behindPlan(plan: KeptPlan, far: HowFar, since: Seconds): ReadonlyMap<TrainId, Seconds> {
  const late = new Map<TrainId, Seconds>();
  for (const [train, times] of forecast(plan)) {
    const due = times.get(far.get(train)?.entered ?? 0);
    if (due !== undefined && since > due) late.set(train, since - due);
  }
  return late;
}
