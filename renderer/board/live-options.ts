/** What the board is told beside the state of a live evening (or a replay of one): barred gaps, locks, standing alarms. */
import type { BlockId, NodeId } from '../../shared-model/ids.ts';
import { barredGaps } from '../../shared-model/power/barred-gaps.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../shared-model/railroad/travel.ts';
import { ALARM_RANKS, alarmRank } from '../../shared-model/session/alarms/rank.ts';
import { feedNow } from '../../shared-model/session/facts/feed.ts';
import { locksOn } from '../../shared-model/session/facts/locks.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { BoardOptions } from './board-view.ts';
import type { BoardMark } from './board-words.ts';

/** The gravest alarm on each thing that it is about. */
function alarmMarks(railroad: Railroad, state: SessionState): ReadonlyMap<string, BoardMark> {
  const marks = new Map<string, BoardMark>();
  const graver = [...ALARM_RANKS].reverse();
  const ranked = state.alarms
    .map(({ code, about }) => ({ about, rank: alarmRank({ railroad, state }, { code, about }) }))
    .toSorted((a, b) => graver.indexOf(a.rank) - graver.indexOf(b.rank));
  for (const { about, rank } of ranked) for (const thing of about) marks.set(thing, rank);
  return marks;
}

/**
 * @returns the options that follow from railroad and state; the caller adds what is next, what may be pressed, and the marks of a refusal
 */
export function liveOptions(
  railroad: Railroad,
  state: SessionState,
): Required<Pick<BoardOptions, 'barredGaps' | 'locked' | 'marks'>> {
  const world = { railroad, state };
  const levers = railroad.document.nodes.filter(isThrown).map(({ id }) => id);
  return {
    barredGaps: barredGaps(railroad, state.checks, (block: BlockId) => feedNow(world, block)),
    locked: new Set<NodeId>(levers.filter((id) => locksOn(world, id).length > 0)),
    marks: alarmMarks(railroad, state),
  };
}
