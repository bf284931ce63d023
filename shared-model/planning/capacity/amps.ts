/** How many trains the throttles and supplies carry at once, the lightest first. */
import type { SupplyId } from '../../ids.ts';
import { supplyLimit } from '../../power/load.ts';
import type { Train } from '../../railroad/document.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Amps } from '../../units.ts';
import type { CapacityBound } from '../capacity-answer.ts';

/** One train a throttle. */
export function cabsBound({ document: { throttles } }: Railroad): CapacityBound {
  return {
    limit: 'cabs',
    trains: throttles.length,
    proven: true,
    about: throttles.map(({ id }) => id),
    says: `There are ${throttles.length} throttles, and every train that moves has one of its own.`,
  };
}

/**
 * Gives each train a throttle that carries it, on the supply that has the most left.
 *
 * @param trains as many as could be wanted
 */
export function ampsBound({ document }: Railroad, trains: readonly Train[]): CapacityBound {
  const left = new Map<SupplyId, Amps>(document.supplies.map((supply) => [supply.id, supplyLimit(supply)]));
  const free = [...document.throttles];
  let carried = 0;
  for (const { amps } of [...trains].sort((one, other) => one.amps - other.amps)) {
    const able = free
      .filter(({ supply, maxAmps }) => maxAmps >= amps && (left.get(supply) ?? 0) >= amps)
      .sort((one, other) => (left.get(other.supply) ?? 0) - (left.get(one.supply) ?? 0));
    const taken = able[0];
    if (taken === undefined) break;
    free.splice(free.indexOf(taken), 1);
    left.set(taken.supply, (left.get(taken.supply) ?? 0) - amps);
    carried += 1;
  }
  const all = carried === trains.length;
  return {
    limit: 'amps',
    trains: carried,
    proven: true,
    about: all ? [] : document.supplies.map(({ id }) => id),
    says: all
      ? 'The throttles and supplies carry every train at once.'
      : `The throttles and supplies carry ${carried} at once, the lightest first.`,
  };
}
