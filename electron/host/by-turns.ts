/** Long work in short turns: whoever goes on meanwhile, the live evening above all, does not wait for it. */
import { setImmediate } from 'node:timers/promises';

/** What was answered by work that was no longer wanted. */
export const GIVEN_UP = Symbol('given up');

/**
 * Does work a turn at a time, letting others have theirs in between.
 *
 * @param work yields at the end of each turn what it wants to tell
 * @param wanted told that; false gives the work up
 * @returns what the work returns
 */
export async function whileWanted<Told, Value>(
  work: Generator<Told, Value>,
  wanted: (told: Told) => boolean,
): Promise<Value | typeof GIVEN_UP> {
  for (;;) {
    const turn = work.next();
    if (turn.done === true) return turn.value;
    await setImmediate();
    if (!wanted(turn.value)) return GIVEN_UP;
  }
}
