/**
 * Work that is written down as it changes, in kept documents of the host, and found again by the next page. A window holds its own by a
 * lock of the browser: no other takes it up meanwhile.
 */
import { useSyncExternalStore } from 'react';
import { firstMalformed } from '../../shared-model/malformed.ts';
import type { Connection } from '../../shared-model/wire/contract.ts';
import type { z } from '../../shared-model/zod.ts';

/** What was found when a page began. */
export interface Found<Work> {
  readonly left: { readonly id: string; readonly at: string; readonly work: Work } | null;
  /** Why the newest one cannot be read; it stays where it is. */
  readonly damaged: string | null;
}

/** Holds a document for this page as long as the page lives. @returns false where another window has it */
async function claimed(kind: string, id: string): Promise<boolean> {
  return new Promise((resolve) => {
    void navigator.locks.request(`${kind} ${id}`, { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise<void>(() => undefined);
    });
  });
}

/**
 * Finds the newest that fits and that no other window is at.
 *
 * @param fits whether it is wanted now
 */
export async function findWritten<Work>(
  connection: Connection,
  kind: string,
  schema: z.ZodType<Work>,
  fits: (work: Work) => boolean,
): Promise<Found<Work>> {
  const rows = await connection.call('keep.list', { kind });
  if (!rows.ok) return { left: null, damaged: rows.problem.says };
  let damaged: string | null = null;
  for (const { id, at, value } of rows.value) {
    const read = schema.safeParse(value);
    if (read.success && !fits(read.data)) continue;
    if (!(await claimed(kind, id))) continue;
    if (read.success) return { left: { id, at, work: read.data }, damaged };
    const { path, says } = firstMalformed(read.error);
    damaged ??= `What was being rehearsed last cannot be read: ${path} ${says}. It is left as it is.`;
  }
  return { left: null, damaged };
}

/** So long nothing changes before it is written. */
const PAUSE_MS = 400;
/** What could not be written is tried again after so long: a host that was gone comes back. */
const RETRY_MS = 4000;

export interface Autosave<Work> {
  /** Null: there is nothing to come back to any more. */
  readonly put: (work: Work | null) => void;
  /** Leaves it written as it is: what comes is another one. */
  readonly letGo: () => void;
  /** Goes on with one that was found. */
  readonly takeUp: (id: string, work: Work) => void;
  /** The one that is at work here; null while nothing is written. */
  readonly own: () => string | null;
  /** What is not written yet is written now. */
  readonly flush: () => void;
  /** Why what is at work is not written; null while it is. */
  readonly problem: () => string | null;
  /** @returns a function that ends the listening */
  readonly onProblem: (listener: () => void) => () => void;
}

export function autosave<Work>(connection: Pick<Connection, 'call'>, kind: string): Autosave<Work> {
  let id: string | null = null;
  let written: string | null = null;
  let waiting: Work | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let problem: string | null = null;
  const listeners = new Set<() => void>();
  const told = (says: string | null): void => {
    if (problem === says) return;
    problem = says;
    for (const listener of listeners) listener();
  };
  const write = async (): Promise<void> => {
    clearTimeout(timer);
    const value = waiting;
    waiting = null;
    if (value === null) return;
    const text = JSON.stringify(value);
    if (text === written) return;
    if (id === null) {
      id = crypto.randomUUID();
      void claimed(kind, id);
    }
    const mine = id;
    written = text;
    const answer = await connection.call('keep.write', { kind, id: mine, value });
    if (!answer.ok && id === mine && written === text) {
      written = null;
      if (waiting === null) {
        waiting = value;
        timer = setTimeout(() => void write(), RETRY_MS);
      }
    }
    told(answer.ok ? null : answer.problem.says);
  };
  return {
    put(work) {
      waiting = work;
      clearTimeout(timer);
      if (work !== null) {
        timer = setTimeout(() => void write(), PAUSE_MS);
        return;
      }
      if (id !== null) void connection.call('keep.remove', { kind, id });
      id = null;
      written = null;
      told(null);
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
    problem: () => problem,
    onProblem(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Why what is at work could not be written down; null while it is. */
export const useNotWritten = <Work>({ problem, onProblem }: Autosave<Work>): string | null =>
  useSyncExternalStore(onProblem, problem);
