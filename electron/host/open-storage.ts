/** The way to a log that is to be written: the lock first, then the file, then what is found wrong with it. */
import { existsSync, mkdirSync, realpathSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { LogState } from '../../shared-model/wire/contract.ts';
import { takeOutPartial } from './arrivals.ts';
import { defaultLogFile } from './data-folder.ts';
import { takeReplacement } from './log/backups.ts';
import { readDocument } from './log/documents.ts';
import { eveningFault } from './log/evening-fault.ts';
import { type Holder, type Lock, takeLock } from './log/lock.ts';
import type { LogProblem, ReadableLog } from './log/log.ts';
import { type OpenedForWriting, openForWriting } from './log/open-log.ts';
import { reserveBeside } from './log/reserve.ts';
import { openSessionRow } from './log/sessions.ts';
import { readOnlyStorage, type Storage, writableStorage } from './storage.ts';

export interface OpenStorage {
  readonly storage: Storage;
  /** Path of the log. */
  readonly file: string;
  /** Tells a second start where this one can be reached. */
  announce(address: string | null): void;
  /** Closes the log and gives up its lock. */
  close(): void;
}

/** Another process has this log; `says` is one line for the user, `holder` tells where it is. */
export interface AlreadyRunning {
  readonly kind: 'already-running';
  readonly holder: Holder | null;
  readonly says: string;
}
export interface CannotOpen {
  readonly kind: 'cannot';
  readonly problem: LogProblem;
}
export type StorageOpened =
  | { readonly kind: 'open'; readonly opened: OpenStorage }
  | AlreadyRunning
  | CannotOpen;

/** The same log under whatever name it is reached. The data folder is made where it is missing; the folder of a named log has to be there. */
function realLog(named: string | undefined): string {
  const file = named ?? defaultLogFile();
  if (named === undefined) mkdirSync(dirname(file), { recursive: true });
  return existsSync(file) ? realpathSync(file) : join(realpathSync(dirname(file)), basename(file));
}

/** One line about the process that has a log. */
function runningWords(file: string, holder: Holder | null): string {
  if (holder === null) return `Cabward is already running on ${file}.`;
  const where = holder.address === null ? '' : ` at ${holder.address}`;
  return `Cabward is already running on ${file}${where} (process ${holder.pid}, since ${holder.since}).`;
}

/** Why the evening that was left open cannot be gone on with; null when it can, or none was. */
function resumeFault(log: ReadableLog): string | null {
  try {
    const row = openSessionRow(log);
    if (row === null) return null;
    readDocument(log, row.railroadHash);
    const fault = eveningFault(log, row);
    return fault === null ? null : `evening ${row.id}, which was left open: ${fault}`;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function storageOf(
  found: Extract<OpenedForWriting, { ok: true }>,
  file: string,
  since: string,
  changed: (state: LogState) => void,
): Storage {
  if (found.damaged) return readOnlyStorage(found.log, found.says);
  const fault = resumeFault(found.log);
  if (fault !== null)
    return readOnlyStorage(
      found.log,
      `${file} is not what was written (${fault}). It is open for reading only; nothing can be added. Make a copy of it, then put back a backup or start a new log with --log.`,
    );
  const reserve = reserveBeside(file);
  reserve.hold();
  const storage = writableStorage(found.log, reserve, changed);
  takeOutPartial(storage, since);
  return storage;
}

/**
 * Opens a log for writing, if no other process has it.
 *
 * @param named path of the log; the one in the data folder where none is named
 * @param since now, RFC 3339
 * @param changed told when the disk is full or has room again
 */
export function openStorage(
  named: string | undefined,
  since: string,
  changed: (state: LogState) => void,
): StorageOpened {
  let file: string;
  let lock: Lock;
  try {
    file = realLog(named);
    const taken = takeLock(file, since);
    if (!taken.ok)
      return { kind: 'already-running', holder: taken.holder, says: runningWords(file, taken.holder) };
    lock = taken.lock;
  } catch (error) {
    const cause = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    const says = `${named ?? defaultLogFile()}: expected a place where a log can be kept (${cause})`;
    return { kind: 'cannot', problem: { code: 'unreadable', says } };
  }
  takeReplacement(file, since);
  const found = openForWriting(file);
  if (!found.ok) {
    lock.release();
    return { kind: 'cannot', problem: found.problem };
  }
  const storage = storageOf(found, file, since, changed);
  return {
    kind: 'open',
    opened: {
      storage,
      file,
      announce: lock.announce,
      close: () => {
        found.log.close();
        lock.release();
      },
    },
  };
}
