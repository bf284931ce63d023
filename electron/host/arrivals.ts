/** Evenings brought into the log, or taken out of it, whole or not at all, in short turns: orders of the evening that is going on are carried out meanwhile. */
import type { Bad } from './answers.ts';
import { GIVEN_UP, whileWanted } from './by-turns.ts';
import type { WritableLog } from './log/log.ts';
import {
  type Act,
  type Arrival,
  beginRemoval,
  completeArrival,
  partialSessions,
  takeOut,
  writeArrival,
} from './log/partial.ts';
import type { Storage } from './storage.ts';

/** A transaction that could not be done, and what the user is told. */
class Unwritten extends Error {
  readonly bad: Bad;
  constructor(bad: Bad) {
    super(bad.problem.says);
    this.bad = bad;
  }
}

const actOn =
  (storage: Storage): Act =>
  (act) => {
    const done = storage.write(act);
    if (!done.ok) throw new Unwritten(done);
    return done.value;
  };

async function unlessUnwritten<Value>(work: () => Promise<Value>): Promise<Value | Bad> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Unwritten) return error.bad;
    throw error;
  }
}

interface Bringing<Value> {
  /** Now, RFC 3339. */
  readonly at: string;
  /** Told how many entries of all are written; false gives it up. */
  readonly wanted: (entries: number) => boolean;
  /** Done in the transaction that puts the evenings into the lists. */
  readonly also: (log: WritableLog, sessions: readonly number[]) => Value;
}

/**
 * Brings evenings in, all of them or none.
 *
 * @returns what `also` gave; what the log could not take; or that it was given up, with nothing left of it
 */
export async function bringInWhole<Value extends object>(
  storage: Storage,
  arrivals: readonly Arrival[],
  { at, wanted, also }: Bringing<Value>,
): Promise<Value | Bad | typeof GIVEN_UP> {
  const act = actOn(storage);
  const sessions: number[] = [];
  try {
    return await unlessUnwritten(async () => {
      let before = 0;
      for (const arrival of arrivals) {
        const turns = writeArrival(act, arrival, (session) => sessions.push(session));
        const done = await whileWanted(turns, (entries) => storage.log.open && wanted(before + entries));
        if (done === GIVEN_UP) return GIVEN_UP;
        before += arrival.count;
      }
      const value = act((log) => {
        for (const [index, arrival] of arrivals.entries())
          completeArrival(log, sessions[index] ?? 0, arrival);
        return also(log, sessions);
      });
      sessions.length = 0;
      return value;
    });
  } finally {
    // What is left when the disk is full, or the console closes, is taken out at the next start.
    await unlessUnwritten(async () => {
      for (const session of storage.log.open ? sessions : []) {
        act((log) => beginRemoval(log, session, at));
        await whileWanted(takeOut(act, session), () => storage.log.open);
      }
    });
  }
}

/**
 * Takes an evening out of the log; it is gone from the lists at once.
 *
 * @param at now, RFC 3339
 * @param hidden told when it is gone from the lists
 * @returns null when all of it is gone; else what the log could not do
 */
export function takeOutWhole(
  storage: Storage,
  session: number,
  at: string,
  hidden: () => void,
): Promise<Bad | null> {
  const act = actOn(storage);
  return unlessUnwritten(async () => {
    act((log) => beginRemoval(log, session, at));
    hidden();
    await whileWanted(takeOut(act, session), () => storage.log.open);
    return null;
  });
}

/**
 * Takes out what was left half-way when the program ended in the midst of it. Nobody waits meanwhile: the console is only being opened.
 *
 * @param at now, RFC 3339
 */
export function takeOutPartial(storage: Storage, at: string): void {
  const act = actOn(storage);
  try {
    for (const session of partialSessions(storage.log)) {
      act((log) => beginRemoval(log, session, at));
      for (const _ of takeOut(act, session));
    }
  } catch (error) {
    // No room on the disk: it stays, in no list, until there is.
    if (!(error instanceof Unwritten)) throw error;
  }
}
