/** Any moment of an evening again: the fold kept at every so many events, and the short tail folded when it is asked for. */
import type { SessionEvent } from '../session/event.ts';
import { evolve, foldEvents } from '../session/fold.ts';
import type { SessionState } from '../session/state.ts';

/** Events between two kept states: a tail of 199 events folds in a few milliseconds. */
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

/** How many events had happened at a moment (seconds since the session was opened; events of that very second have happened). */
export function positionAt(events: readonly SessionEvent[], seconds: number): number {
  let low = 0;
  let high = events.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((events[middle]?.at ?? 0) <= seconds) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The position just after the next (or the one before) refusal or alarm; the same position when there is none. */
export function markedPosition(
  events: readonly SessionEvent[],
  position: number,
  direction: 'next' | 'before',
): number {
  const marked = ({ outcome }: SessionEvent): boolean => outcome !== 'done';
  if (direction === 'next') {
    const ahead = events.findIndex((event, index) => index >= position && marked(event));
    return ahead < 0 ? position : ahead + 1;
  }
  const behind = events.findLastIndex((event, index) => index < position - 1 && marked(event));
  return behind < 0 ? position : behind + 1;
}
