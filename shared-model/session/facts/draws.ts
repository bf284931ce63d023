/** Which trains draw current in an evening, as it is recorded. */

import type { TrainId } from '../../ids.ts';
import type { Draw } from '../../power/load.ts';
import { feedOf } from '../../railroad/feed.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { SessionState, TrainNow } from '../state.ts';

/** A train that stands draws nothing, one that stalled what its motor draws at a stand, if that is entered. */
function ampsNow(railroad: Railroad, id: TrainId, train: TrainNow): number {
  if (train.stalled) return railroad.trains.get(id)?.stallAmps ?? train.amps;
  return train.stopped ? 0 : train.amps;
}

/**
 * The draws of an evening.
 *
 * @param which `now` what runs or stalls; `all` as if every train that has a cab ran at once
 */
export function drawsOf(railroad: Railroad, state: SessionState, which: 'now' | 'all'): readonly Draw[] {
  return (Object.entries(state.trains) as [TrainId, TrainNow][]).flatMap(([id, train]) => {
    if (!train.placed || train.cab === null) return [];
    const amps = which === 'all' ? train.amps : ampsNow(railroad, id, train);
    if (amps === 0) return [];
    const selectors = train.blocks.flatMap((block) => feedOf(railroad, block)?.selector ?? []);
    return [{ train: id, amps, throttle: train.cab, selectors: [...new Set(selectors)] }];
  });
}
