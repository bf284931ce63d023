/** A log with a very long evening in it: the demo evening over and over, numbered and timed on; a thousand entries or a million. */
import { storeDocument } from '../../electron/host/log/documents.ts';
import { appendEvents } from '../../electron/host/log/events.ts';
import { openForWriting } from '../../electron/host/log/open-log.ts';
import { addSession, labelSession } from '../../electron/host/log/sessions.ts';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { CHECKPOINT_EVERY } from '../../shared-model/logbook/replay.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { evolve } from '../../shared-model/session/fold.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { OPENED_AT } from './small-log.ts';

/** The inputs of the demo evening as the rules judged them; an evening does not take itself back over and over, so retractions are left out. */
function judgedOnce(): { readonly initial: SessionState; readonly events: readonly SessionEvent[] } {
  let evening = newEvening(indexRailroad(demoRailroad));
  for (const input of demoEvening()) evening = take(evening, input).evening;
  return {
    initial: evening.initial,
    events: evening.events.filter(({ input }) => input.do !== 'retract'),
  };
}

/** @returns the number of the evening in the log */
export function makeLongLog(file: string, entries: number): number {
  const opened = openForWriting(file);
  if (!opened.ok || opened.damaged) throw new Error(opened.ok ? opened.says : opened.problem.says);
  const { log } = opened;
  const { initial, events: once } = judgedOnce();
  const lasts = once.at(-1)?.at ?? 0;
  const railroadHash = storeDocument(log, demoRailroad);
  const header = { uid: `long-${entries}`, railroadHash, openedAt: OPENED_AT, initial };
  const session = addSession(log, header, null);
  let after = initial;
  for (let from = 1; from <= entries; from += CHECKPOINT_EVERY) {
    const events: SessionEvent[] = [];
    for (let entry = from; entry < from + CHECKPOINT_EVERY && entry <= entries; entry += 1) {
      const round = Math.floor((entry - 1) / once.length);
      const model = once[(entry - 1) % once.length];
      if (model === undefined) break;
      const at = model.at + round * lasts;
      const event = { ...model, entry, at, changes: { ...model.changes, entries: entry, at } };
      after = evolve(after, event);
      events.push(event);
    }
    appendEvents(log, { session, events, after });
  }
  labelSession(log, session, { name: `${entries} entries`, endedAt: OPENED_AT });
  log.close();
  return session;
}
