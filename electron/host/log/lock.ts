/**
 * One writer a log, across processes. The lock is an exclusive lock that the system holds on `…-lock` for as long as this process lives,
 * so a crash leaves none behind; beside it `…-running` says who holds it, and is believed only while the lock is held.
 */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import Sqlite, { type Database } from 'better-sqlite3';
import { z } from '../../../shared-model/zod.ts';

const holder = z.strictObject({
  pid: z.number().int(),
  since: z.string(),
  /** Where it can be reached, if by an address; good for one use. */
  address: z.string().nullable(),
});
/** The process that has the log open for writing. */
export type Holder = z.infer<typeof holder>;

export interface Lock {
  /** Says where this process can be reached, for a second start to find. */
  announce(address: string | null): void;
  release(): void;
}
export type LockTaken =
  | { readonly ok: true; readonly lock: Lock }
  /** `holder` is null where the other process has not said yet who it is. */
  | { readonly ok: false; readonly holder: Holder | null };

const runningFile = (log: string) => `${log}-running`;

/** Who says that it holds a log's lock. */
function readHolder(log: string): Holder | null {
  try {
    const parsed = holder.safeParse(JSON.parse(readFileSync(runningFile(log), 'utf8')));
    return parsed.success ? parsed.data : null;
  } catch {
    return null;
  }
}

const isBusy = (error: unknown) =>
  error instanceof Sqlite.SqliteError && error.code.startsWith('SQLITE_BUSY');

/**
 * Takes the lock of a log, whether or not the log is there yet.
 *
 * @param log path of the log; its folder has to be there
 * @param since when this process started, RFC 3339
 * @returns the lock, or who has it
 */
export function takeLock(log: string, since: string, pid: number = process.pid): LockTaken {
  let database: Database | undefined;
  try {
    database = new Sqlite(`${log}-lock`, { timeout: 0 });
    database.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    database?.close();
    if (isBusy(error)) return { ok: false, holder: readHolder(log) };
    throw error;
  }
  const held = database;
  const announce = (address: string | null) =>
    // Only its owner may read it: the address may carry a token.
    writeFileSync(runningFile(log), JSON.stringify({ pid, since, address } satisfies Holder), {
      mode: 0o600,
    });
  announce(null);
  return {
    ok: true,
    lock: {
      announce,
      release: () => {
        rmSync(runningFile(log), { force: true });
        held.close();
      },
    },
  };
}
