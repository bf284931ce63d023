/** Authorities, and lengthenings of them, that wait for their read-back. */
import { authoritiesInForce, type InForce } from '../../shared-model/session/facts/authorities.ts';
import type { SessionState } from '../../shared-model/session/state.ts';

/** In the order of granting; the newest is what SAY shows. */
export function waitingReadBacks(state: SessionState): readonly InForce[] {
  return authoritiesInForce(state).filter(
    ({ authority }) => authority.state === 'granted' || authority.legs.some(({ readBack }) => !readBack),
  );
}
