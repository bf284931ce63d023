/**
 * The rehearsal that is being worked on, written down by itself: a page that is read anew, a window that breaks down and a host that is
 * started again find it where it was. Each is a kept document of its own until it is begun anew, whether it has a name or not.
 */
import { firstMalformed } from '../../shared-model/malformed.ts';
import type { Connection, ReplyOf } from '../../shared-model/wire/contract.ts';
import { z } from '../../shared-model/zod.ts';
import { keptRehearsal } from './kept-rehearsal.ts';

/** The kind under which the host keeps them. */
export const AT_WORK = 'rehearsal-at-work';

export const atWork = z.strictObject({
  format: z.literal('cabward-rehearsal-at-work/1'),
  /** The evening that went on when it was begun; null where there was none. */
  evening: z.string().nullable(),
  /** The name under which it was kept; null where it was not. */
  keptAs: z.string().nullable(),
  rehearsal: keptRehearsal,
});
export type AtWork = z.infer<typeof atWork>;

/** Whether it is of that evening, or was begun without one: then it may be wanted in any. */
export const isOf = (work: Pick<AtWork, 'evening'>, evening: string | null): boolean =>
  work.evening === null || work.evening === evening;

/** What was found when a page began. */
export interface Found {
  /** Of the evening that goes on: it is taken up again. */
  readonly left: { readonly id: string; readonly at: string; readonly work: AtWork } | null;
  /** Why the newest one cannot be; it stays where it is. */
  readonly damaged: string | null;
}

/** Holds a rehearsal for this page as long as the page lives. @returns false where another window has it */
async function claimed(id: string): Promise<boolean> {
  return new Promise((resolve) => {
    void navigator.locks.request(`${AT_WORK} ${id}`, { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise<void>(() => undefined);
    });
  });
}

/**
 * Finds what was being worked on, if no other window is at it.
 *
 * @param evening the evening that goes on; null where none does
 */
export async function findAtWork(connection: Connection, evening: string | null): Promise<Found> {
  const rows = await connection.call('keep.list', { kind: AT_WORK });
  if (!rows.ok) return { left: null, damaged: rows.problem.says };
  let damaged: string | null = null;
  for (const { id, at, value } of rows.value) {
    const read = atWork.safeParse(value);
    if (read.success && !isOf(read.data, evening)) continue;
    if (!(await claimed(id))) continue;
    if (read.success) return { left: { id, at, work: read.data }, damaged };
    damaged ??= `What was being rehearsed last cannot be read (${firstMalformed(read.error).says}). It is untouched, under “Kept”.`;
  }
  return { left: null, damaged };
}

/** Those that are neither at work here nor under a name, to be opened or deleted. */
export async function listAtWork(connection: Connection, own: string | null): Promise<ReplyOf<'keep.list'>> {
  const rows = await connection.call('keep.list', { kind: AT_WORK });
  return rows.ok ? rows.value.filter(({ id }) => id !== own) : [];
}

/** So long nothing changes before it is written. */
const PAUSE_MS = 400;

export interface Autosave {
  /** Null: there is nothing to come back to any more. */
  readonly put: (work: AtWork | null) => void;
  /** Leaves it written as it is: what comes is another one. */
  readonly letGo: () => void;
  /** Goes on with one that was found. */
  readonly takeUp: (id: string, work: AtWork) => void;
  /** The one that is at work here; null while nothing is written. */
  readonly own: () => string | null;
  /** What is not written yet is written now. */
  readonly flush: () => void;
}

/** @param failed told why it could not be written; null when it was */
export function autosave(connection: Connection, failed: (says: string | null) => void): Autosave {
  let id: string | null = null;
  let written: string | null = null;
  let waiting: AtWork | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const write = async (): Promise<void> => {
    clearTimeout(timer);
    const value = waiting;
    waiting = null;
    if (value === null) return;
    const text = JSON.stringify(value);
    if (text === written) return;
    if (id === null) {
      id = crypto.randomUUID();
      void claimed(id);
    }
    const mine = id;
    written = text;
    const answer = await connection.call('keep.write', { kind: AT_WORK, id: mine, value });
    if (!answer.ok && id === mine && written === text) written = null;
    failed(answer.ok ? null : answer.problem.says);
  };
  return {
    put(work) {
      waiting = work;
      clearTimeout(timer);
      if (work !== null) {
        timer = setTimeout(() => void write(), PAUSE_MS);
        return;
      }
      if (id !== null) void connection.call('keep.remove', { kind: AT_WORK, id });
      id = null;
      written = null;
    },
    letGo() {
      void write();
      id = null;
      written = null;
    },
    takeUp(found, work) {
      id = found;
      written = JSON.stringify(work);
    },
    own: () => id,
    flush: () => void write(),
  };
}
