/** Events in the log: added in one transaction, each chained to the one before, and read back in order. */
import { CHECKPOINT_EVERY } from '../../../shared-model/logbook/replay.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { canonicalJson, nextLink, sha256 } from './chain.ts';
import type { ReadableLog, WritableLog } from './log.ts';
import { labelSession } from './sessions.ts';

/** What goes into the log in one transaction. */
export interface Addition {
  readonly session: number;
  readonly events: readonly SessionEvent[];
  /** The state after the last of them. */
  readonly after: SessionState;
  /** RFC 3339, where the last of them ended the evening. */
  readonly endedAt?: string | undefined;
}

/** The storage interface: everything that an evening adds goes through a function of this shape. */
export type Append = (log: WritableLog, addition: Addition) => void;

function peopleOf(events: readonly SessionEvent[]): readonly string[] {
  return events.flatMap(({ input, outcome }) =>
    input.do === 'assign-cab' && input.person !== null && outcome !== 'refused' ? [input.person] : [],
  );
}

/** Adds events, whole or not at all; when it returns they are on disk. */
export const appendEvents: Append = (log, { session, events, after, endedAt }) => {
  const first = events[0];
  if (first === undefined) return;
  const insert = log.prepare(
    'INSERT INTO events (session, entry, at, outcome, json, previous, hash) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  log
    .transaction(() => {
      let previous = String(log.prepare('SELECT head FROM sessions WHERE id = ?').pluck().get(session));
      for (const event of events) {
        const json = canonicalJson(event);
        const hash = nextLink(previous, json);
        insert.run(session, event.entry, event.at, event.outcome, json, previous, hash);
        previous = hash;
      }
      const people = peopleOf(events);
      if (people.length > 0) {
        const known = JSON.parse(
          String(log.prepare('SELECT people FROM sessions WHERE id = ?').pluck().get(session)),
        ) as string[];
        const all = [...new Set([...known, ...people])];
        log.prepare('UPDATE sessions SET people = ? WHERE id = ?').run(JSON.stringify(all), session);
      }
      if (Math.floor((first.entry - 1) / CHECKPOINT_EVERY) < Math.floor(after.entries / CHECKPOINT_EVERY))
        addCheckpoint(log, session, after);
      if (endedAt !== undefined) labelSession(log, session, { endedAt });
    })
    .immediate();
};

function addCheckpoint(log: WritableLog, session: number, state: SessionState): void {
  const json = canonicalJson(state);
  log
    .prepare('INSERT OR REPLACE INTO checkpoints (session, entry, state, hash) VALUES (?, ?, ?, ?)')
    .run(session, state.entries, json, sha256(json));
}

/** An event as it is stored, with its links. */
export interface StoredEvent {
  readonly entry: number;
  readonly at: number;
  readonly outcome: string;
  readonly json: string;
  readonly previous: string;
  readonly hash: string;
}

const RANGE =
  'SELECT entry, at, outcome, json, previous, hash FROM events WHERE session = ? AND entry BETWEEN ? AND ? ORDER BY entry';

/** Events one after the other as they are stored, `from` and `to` included. */
export function storedEvents(
  log: ReadableLog,
  session: number,
  from = 1,
  to = Number.MAX_SAFE_INTEGER,
): IterableIterator<StoredEvent> {
  return log.prepare<[number, number, number], StoredEvent>(RANGE).iterate(session, from, to);
}

/** Reads a stored event. This program wrote it and the chain vouches for it, so it is not taken apart by the schema again. */
export function eventOf(stored: StoredEvent): SessionEvent {
  return JSON.parse(stored.json) as SessionEvent;
}

/** Events `from` to `to`, both included, in order. */
export function readEvents(
  log: ReadableLog,
  session: number,
  from: number,
  to: number,
): readonly SessionEvent[] {
  return log.prepare<[number, number, number], StoredEvent>(RANGE).all(session, from, to).map(eventOf);
}
