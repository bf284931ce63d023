/** A log with an evening of any length in it, whose events are not judged by the rules: for what concerns the log alone. */
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { storeDocument } from '../../electron/host/log/documents.ts';
import { appendEvents } from '../../electron/host/log/events.ts';
import type { WritableLog } from '../../electron/host/log/log.ts';
import { openForWriting } from '../../electron/host/log/open-log.ts';
import { addSession } from '../../electron/host/log/sessions.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { evolve } from '../../shared-model/session/fold.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { passingSidingExample } from './example.ts';
import { temporaryFolder } from './temporary-folder.ts';

export const OPENED_AT = '2026-11-25T19:00:00.000Z';

/** A log opened for writing; a test that closes it earlier may. */
export function openedLog(file: string = join(temporaryFolder(), 'evenings.cabward')): WritableLog {
  const opened = openForWriting(file);
  if (!opened.ok || opened.damaged) throw new Error(opened.ok ? opened.says : opened.problem.says);
  onTestFinished(() => void opened.log.close());
  return opened.log;
}

/** A note, a second after the one before. */
export function noteEvent(entry: number): SessionEvent {
  return {
    entry,
    at: entry,
    input: { do: 'note', text: `note ${entry}` },
    outcome: entry % 10 === 0 ? 'refused' : 'done',
    reasons: [],
    changes: { entries: entry, at: entry },
  };
}

/** An evening of so many notes, added one transaction each or `size` at a time; returns its number and every state, the initial one first. */
export function addNotes(
  log: WritableLog,
  entries: number,
  { uid = 'evening-1', size = 1 } = {},
): { readonly session: number; readonly states: readonly SessionState[] } {
  const document = passingSidingExample;
  const initial = initialState(indexRailroad(document));
  const railroadHash = storeDocument(log, document);
  const session = addSession(log, { uid, railroadHash, openedAt: OPENED_AT, initial }, null);
  const states = [initial];
  for (let from = 1; from <= entries; from += size) {
    const events: SessionEvent[] = [];
    for (let entry = from; entry < from + size && entry <= entries; entry += 1) {
      const event = noteEvent(entry);
      events.push(event);
      states.push(evolve(states.at(-1) ?? initial, event));
    }
    appendEvents(log, { session, events, after: states.at(-1) ?? initial });
  }
  return { session, states };
}
