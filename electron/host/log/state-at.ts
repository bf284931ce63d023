/** The folded state of an evening at any entry: from the nearest checkpoint that is sound, and the events after it. */
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { foldEvents } from '../../../shared-model/session/fold.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { sha256 } from './chain.ts';
import { readEvents } from './events.ts';
import type { ReadableLog } from './log.ts';
import { initialStateOf } from './sessions.ts';

interface Checkpoint {
  readonly entry: number;
  readonly state: string;
  readonly hash: string;
}

/** The newest sound checkpoint at or before an entry; a checkpoint that does not match its hash is passed over. */
function checkpointBefore(log: ReadableLog, session: number, entry: number): SessionState | null {
  const found = log
    .prepare<[number, number], Checkpoint>(
      'SELECT entry, state, hash FROM checkpoints WHERE session = ? AND entry <= ? ORDER BY entry DESC',
    )
    .iterate(session, entry);
  for (const { state, hash } of found) if (sha256(state) === hash) return JSON.parse(state) as SessionState;
  return null;
}

/**
 * The state after an entry (0: before the first).
 *
 * @param useCheckpoints false: fold from the start, whatever the cache says
 */
export function stateAt(
  log: ReadableLog,
  session: number,
  entry: number,
  useCheckpoints = true,
): SessionState {
  const from =
    (useCheckpoints ? checkpointBefore(log, session, entry) : null) ?? initialStateOf(log, session);
  const tail: readonly SessionEvent[] = readEvents(log, session, from.entries + 1, entry);
  return foldEvents(from, tail);
}
