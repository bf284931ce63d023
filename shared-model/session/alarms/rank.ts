/** How much an alarm presses: danger, something to act on, or only the record that is behind. */
import type { NodeId } from '../../ids.ts';
import { feedNow } from '../facts/feed.ts';
import { locksOn } from '../facts/locks.ts';
import { phaseFact } from '../facts/phase.ts';
import type { AlarmNow } from '../state.ts';
import type { World } from '../world.ts';

export const ALARM_RANKS = ['danger', 'act', 'book'] as const;
export type AlarmRank = (typeof ALARM_RANKS)[number];

/** Whether the two sides of a gap are fed now by supplies that are not known to be in phase. */
function joinsUnphased(world: World, gap: NodeId): boolean {
  const [one, other] = (world.railroad.edgesAt.get(gap) ?? []).map((edge) => {
    const block = world.railroad.blockOfEdge.get(edge);
    return block === undefined ? null : feedNow(world, block);
  });
  if (one === undefined || other === undefined || one === null || other === null) return false;
  return phaseFact(world, one, other) !== 'in-phase';
}

/**
 * The rank of a standing alarm as things are now.
 *
 * Danger: a gap bridged between supplies that are not known to be in phase, a turnout moved under a train.
 */
export function alarmRank(world: World, { code, about }: Pick<AlarmNow, 'code' | 'about'>): AlarmRank {
  const thing = about[0] as NodeId | undefined;
  switch (code) {
    case 'entered-unlined':
    case 'not-adjacent':
    case 'still-under':
      return 'book';
    case 'bridging':
      return thing !== undefined && joinsUnphased(world, thing) ? 'danger' : 'act';
    case 'turnout-moved':
      return thing !== undefined && locksOn(world, thing).some(({ under }) => under) ? 'danger' : 'act';
    case 'entered-unauthorised':
    case 'wrong-throttle':
    case 'second-train':
    case 'unphased-ahead':
    case 'breaker':
    case 'off-the-rails':
      return 'act';
  }
}
