/** The evening as the screen follows it: the state folded here, event by event, by the same function as in the host. */
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { evolve } from '../../shared-model/session/fold.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { LiveEvening } from '../../shared-model/wire/contract.ts';

/** Events kept for the screen (the newest); the log has them all. */
export const RECENT_EVENTS = 400;

export interface FollowedEvening {
  readonly id: string;
  /** RFC 3339. */
  readonly openedAt: string;
  readonly railroad: Railroad;
  readonly state: SessionState;
  /** The newest events, oldest first. */
  readonly recent: readonly SessionEvent[];
  /** The published version that it stays on; null where its railroad was removed from the library. */
  readonly heldOn: LiveEvening['heldOn'];
  /** Found open at the host's start, after a crash or a restart. */
  readonly resumed: boolean;
  /** The host's session second `seconds` was at `performanceMs` of this page's own clock. */
  readonly clock: { readonly seconds: number; readonly performanceMs: number };
}

/** @param performanceMs this page's clock at the moment of the answer */
export function followEvening(live: LiveEvening, performanceMs: number): FollowedEvening {
  return {
    id: live.id,
    openedAt: live.openedAt,
    railroad: indexRailroad(live.document),
    state: live.state,
    recent: live.recent,
    heldOn: live.heldOn,
    resumed: live.resumed,
    clock: { seconds: live.now, performanceMs },
  };
}

/**
 * Folds events into the evening. Those that it has already are passed over, so that an answer and a push may bring the same ones.
 *
 * @returns the evening after them; null if one is missing in between, so that the evening has to be read anew
 */
export function foldInto(evening: FollowedEvening, events: readonly SessionEvent[]): FollowedEvening | null {
  const fresh = events.filter((event) => event.entry > evening.state.entries);
  if (fresh.length === 0) return evening;
  let state = evening.state;
  for (const event of fresh) {
    if (event.entry !== state.entries + 1) return null;
    state = evolve(state, event);
  }
  return { ...evening, state, recent: [...evening.recent, ...fresh].slice(-RECENT_EVENTS) };
}

/** Seconds since the session was opened, at a moment of this page's clock. */
export function sessionSeconds(evening: FollowedEvening, performanceMs: number): number {
  return evening.clock.seconds + (performanceMs - evening.clock.performanceMs) / 1000;
}
