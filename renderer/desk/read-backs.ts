/** Authorities, and lengthenings of them, that wait for their read-back. */
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { authoritiesInForce, type InForce } from '../../shared-model/session/facts/authorities.ts';
import type { SessionState } from '../../shared-model/session/state.ts';

/** In the order of granting. */
export function waitingReadBacks(state: SessionState): readonly InForce[] {
  return authoritiesInForce(state).filter(
    ({ authority }) => authority.state === 'granted' || authority.legs.some(({ readBack }) => !readBack),
  );
}

/** The one whose words were spoken last, if it still waits; else the oldest that waits. */
export function readBackNow(state: SessionState, recent: readonly SessionEvent[]): InForce | null {
  const waiting = waitingReadBacks(state);
  const spoken = recent.findLast(({ authority }) => authority !== undefined)?.authority;
  return waiting.find(({ id }) => id === spoken) ?? waiting[0] ?? null;
}
