/** Gaps that a train bridges now: it stands across, and the two sides are fed by two throttles without an agreed hand-off. */
import type { NodeId, TrainId } from '../../ids.ts';
import { feedNow } from '../facts/feed.ts';
import { phaseFact } from '../facts/phase.ts';
import { cabUnder, gapsAcross, placedTrains } from '../facts/standing.ts';
import type { World } from '../world.ts';

export interface Bridge {
  readonly train: TrainId;
  readonly gap: NodeId;
}

/** Every bridge at this moment. A hand-off is agreed where each side is fed by the cab that it belongs to, the supplies being in phase. */
export function bridgesNow(world: World): readonly Bridge[] {
  return placedTrains(world).flatMap(([id, train]) =>
    gapsAcross(world.railroad, train)
      .filter(({ ahead, behind }) => {
        const a = feedNow(world, ahead);
        const b = feedNow(world, behind);
        if (a === null || b === null || a === b) return false;
        if (phaseFact(world, a, b) !== 'in-phase') return true;
        return ![ahead, behind].every((block) => cabUnder(world, id, block) === feedNow(world, block));
      })
      .map(({ gap }) => ({ train: id, gap })),
  );
}
