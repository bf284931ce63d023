/** Any moment of an evening again: the fold kept at every so many events, and the short tail folded when it is asked for. */
import type { SessionEvent } from '../session/event.ts';
import { evolve, foldEvents } from '../session/fold.ts';
import type { SessionState } from '../session/state.ts';

/** Events between two kept states, in the log and on the page: a tail of 199 events is read and folded in a few milliseconds. */
export const CHECKPOINT_EVERY = 200;

export interface Replay {
  readonly initial: SessionState;
  /** In the order of the log. */
  readonly events: readonly SessionEvent[];
  /** The state after 0, 200, 400… events. */
  readonly checkpoints: readonly SessionState[];
}

/** Folds an evening once and keeps the states to begin from later. */
export function replayOf(initial: SessionState, events: readonly SessionEvent[]): Replay {
  const checkpoints = [initial];
  let state = initial;
  events.forEach((event, index) => {
    state = evolve(state, event);
    if ((index + 1) % CHECKPOINT_EVERY === 0) checkpoints.push(state);
  });
  return { initial, events, checkpoints };
}

/**
 * The state as it was.
 *
 * @param position how many events had happened; 0 is before the first, more than there are is the end
 */
export function stateAfter({ initial, events, checkpoints }: Replay, position: number): SessionState {
  const from = Math.min(Math.floor(position / CHECKPOINT_EVERY), checkpoints.length - 1);
  return foldEvents(checkpoints[from] ?? initial, events.slice(from * CHECKPOINT_EVERY, position));
}
