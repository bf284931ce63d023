/** Puts an evening that is known as a list of inputs into a log, as if it had been held: judged by the rules, entry by entry. */
import { CHECKPOINT_EVERY } from '../../shared-model/logbook/replay.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { TimedInput } from '../../shared-model/session/input.ts';
import type { LookAhead } from '../../shared-model/session/world.ts';
import type { Bad, Good } from './answers.ts';
import { storeDocument } from './log/documents.ts';
import { appendEvents } from './log/events.ts';
import { addSession, labelSession } from './log/sessions.ts';
import type { Storage } from './storage.ts';

export interface EveningToRecord {
  readonly document: RailroadDocument;
  readonly inputs: readonly TimedInput[];
  readonly uid: string;
  /** RFC 3339. */
  readonly openedAt: string;
  readonly name: string;
  readonly lookAhead?: LookAhead | undefined;
}

/** Records an evening, whole or not at all; returns its number in the log. */
export function recordEvening(storage: Storage, evening: EveningToRecord): Good<number> | Bad {
  let now = newEvening(indexRailroad(evening.document), {}, evening.lookAhead);
  const initial = now.state;
  return storage.write((log) => {
    const railroadHash = storeDocument(log, evening.document);
    const { uid, openedAt, inputs } = evening;
    const session = addSession(log, { uid, railroadHash, openedAt, initial }, null);
    for (let from = 0; from < inputs.length; from += CHECKPOINT_EVERY) {
      const events: SessionEvent[] = [];
      for (const input of inputs.slice(from, from + CHECKPOINT_EVERY)) {
        const taken = take(now, input);
        now = taken.evening;
        events.push(taken.event);
      }
      appendEvents(log, { session, events, after: now.state });
    }
    const endedAt = new Date(Date.parse(openedAt) + now.state.at * 1000).toISOString();
    labelSession(log, session, { name: evening.name, endedAt });
    return session;
  });
}
