/**
 * Evenings that come into the log or go out of it in pieces, each piece a transaction: the evening that is going on does not wait for a
 * long one. Until all of it is there, or gone, an evening is in no list; what was left half-way is taken out when the log is opened.
 */
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { foldEvents } from '../../../shared-model/session/fold.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import type { EveningHeader, Hash } from './chain.ts';
import { storeDocument } from './documents.ts';
import { appendEvents } from './events.ts';
import type { ReadableLog, WritableLog } from './log.ts';
import { addSession, type Labels, labelSession } from './sessions.ts';

/** Entries in one transaction: some milliseconds' work. */
const PIECE = 100;

/** Does an act in one transaction; throws where it cannot be done. */
export type Act = <Value>(act: (log: WritableLog) => Value) => Value;

/** An evening from elsewhere that was found sound. */
export interface Arrival {
  readonly header: EveningHeader & { readonly initial: SessionState };
  readonly document: RailroadDocument;
  readonly labels: Labels;
  /** The link of its last entry. */
  readonly head: Hash;
  readonly count: number;
  /** Entries `from` to `to`, both included. */
  readonly events: (from: number, to: number) => readonly SessionEvent[];
}

/** Whether the log has an evening, be it all of it or part. */
export function knowsEvening(log: ReadableLog, uid: string): boolean {
  return log.prepare('SELECT 1 FROM sessions WHERE uid = ?').get(uid) !== undefined;
}

/** Whether an evening is on its way in or out. */
export function isUnderWay(log: ReadableLog, uid: string): boolean {
  const found = log.prepare('SELECT 1 FROM sessions JOIN partial_sessions ON session = id WHERE uid = ?');
  return found.get(uid) !== undefined;
}

/** Evenings of which a part is in the log, by number. */
export function partialSessions(log: ReadableLog): readonly number[] {
  return log.prepare('SELECT session FROM partial_sessions').pluck().all() as number[];
}

const hide = (log: WritableLog, session: number) =>
  void log.prepare('INSERT OR IGNORE INTO partial_sessions VALUES (?)').run(session);

/** Begins an evening that is in no list yet; returns its number. */
function beginArrival(log: WritableLog, { document, header }: Arrival): number {
  storeDocument(log, document);
  const session = addSession(log, header, null);
  hide(log, session);
  return session;
}

/**
 * Writes an evening from elsewhere in pieces. It is in no list until `completeArrival`.
 *
 * @param begun told its number as soon as it has one: from then on there is something to take out where it is given up
 * @returns its number; yields how many of its entries were written. Throws where it is no longer what was found sound.
 */
export function* writeArrival(
  act: Act,
  arrival: Arrival,
  begun: (session: number) => void,
): Generator<number, number> {
  const session = act((log) => beginArrival(log, arrival));
  begun(session);
  let after = arrival.header.initial;
  for (let from = 1; from <= arrival.count; from += PIECE) {
    const events = arrival.events(from, Math.min(from + PIECE - 1, arrival.count));
    after = foldEvents(after, events);
    const addition = { session, events, after };
    act((log) => appendEvents(log, addition));
    yield from + events.length - 1;
  }
  return session;
}

/** Puts an evening into the lists, all of which is written. Throws where its last link is another than was found sound. */
export function completeArrival(log: WritableLog, session: number, { head, labels }: Arrival): void {
  if (log.prepare('SELECT head FROM sessions WHERE id = ?').pluck().get(session) !== head)
    throw new Error('the evening changed while it was brought in; nothing of it was');
  labelSession(log, session, labels);
  log.prepare('DELETE FROM partial_sessions WHERE session = ?').run(session);
}

/**
 * Takes an evening out of the lists; that it was, and its last link, is kept. The chains of the others are their own and stay valid.
 * What it had is taken out by `takeOut`.
 *
 * @param at now, RFC 3339
 */
export function beginRemoval(log: WritableLog, session: number, at: string): void {
  log
    .prepare(
      'INSERT OR IGNORE INTO removed_sessions SELECT id, uid, entries, head, ? FROM sessions WHERE id = ?',
    )
    .run(at, session);
  hide(log, session);
}

/** Takes out, in pieces, what a removed evening had. */
export function* takeOut(act: Act, session: number): Generator<void, void> {
  for (const table of ['events', 'checkpoints'] as const)
    for (let gone = 1; gone > 0; ) {
      gone = act(
        (log) =>
          log
            .prepare(
              `DELETE FROM ${table} WHERE session = ? AND entry < (SELECT min(entry) + ? FROM ${table} WHERE session = ?)`,
            )
            .run(session, PIECE, session).changes,
      );
      yield;
    }
  act((log) => log.prepare('DELETE FROM sessions WHERE id = ?').run(session));
}
