/** When an order may be given at all: the table at the head of the fine print. */
import type { Line, State } from './state.ts';

const MAKING_UP =
  'assign-cab place-train add-train take-off change-cab apply-setting turn-selector throw-turnout set-toggle declare tag untag settle override retract alarm-seen start end-session';
const STOPPED =
  'resume settle annul tag untag take-off place-train change-cab assign-cab declare override retract alarm-seen end-session';
export const OBSERVATIONS =
  'train-entered train-cleared train-stopped train-at stalled derailed rerailed set-out pick-up couple make-up selector-stands-at turnout-stands-at toggle-stands-at handle-at-zero call stop-called phase-measured supply-replugged breaker-tripped breaker-reset note'.split(
    ' ',
  );

/** Whether the session's state fits a line. */
export function mayBeNow(state: State, line: Line): boolean {
  const { session } = state;
  if (session === 'before') return line.do === 'open-session';
  if (session === 'ended') return false;
  if (OBSERVATIONS.includes(line.do)) return true;
  if (session === 'making-up') return MAKING_UP.split(' ').includes(line.do);
  if (session === 'running') return !['open-session', 'start', 'resume'].includes(line.do);
  if (line.do === 'turn-selector') return line.position === 'off';
  if (line.do === 'set-toggle') return line.on === false;
  return STOPPED.split(' ').includes(line.do);
}
