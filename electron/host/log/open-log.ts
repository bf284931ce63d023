/** Opening a log: what it has to be, how durable it has to write, and what is done where it is damaged. */
import { closeSync, existsSync, openSync, readSync, statSync } from 'node:fs';
import Sqlite, { type Database } from 'better-sqlite3';
import type { LogProblem, ReadableLog, WritableLog } from './log.ts';
import { migrate, NEWEST_VERSION, versionOf } from './migrate.ts';

/** "CABW": tells a log from other SQLite files. */
const APPLICATION_ID = 0x43414257;
const SQLITE_MAGIC = 'SQLite format 3\0';
/** Older ones may lose committed writes when two connections check-point a WAL file at the same instant (fixed in 3.51.3). */
const OLDEST_SQLITE = [3, 51, 3] as const;

type Refused = { readonly ok: false; readonly problem: LogProblem };
export type OpenedForWriting =
  | { readonly ok: true; readonly damaged: false; readonly log: WritableLog }
  | { readonly ok: true; readonly damaged: true; readonly log: ReadableLog; readonly says: string }
  | Refused;
export type OpenedForReading = { readonly ok: true; readonly log: ReadableLog } | Refused;

const refused = (code: LogProblem['code'], says: string): Refused => ({ ok: false, problem: { code, says } });

/** Whether an SQLite version is new enough to keep a log. */
export function isNewEnough(version: string): boolean {
  const parts = version.split('.').map(Number);
  for (const [index, least] of OLDEST_SQLITE.entries()) {
    const part = parts[index] ?? 0;
    if (part !== least) return part > least;
  }
  return true;
}

/** What speaks against a file before SQLite looks at it; null for a file that may be one, or for none. */
function fileProblem(file: string): Refused | null {
  try {
    if (!existsSync(file)) return null;
    const about = statSync(file);
    if (about.isDirectory()) return refused('unreadable', `${file}: expected a log, but it is a folder`);
    if (about.size === 0) return null;
    const head = Buffer.alloc(SQLITE_MAGIC.length);
    const handle = openSync(file, 'r');
    readSync(handle, head);
    closeSync(handle);
    return head.toString('latin1') === SQLITE_MAGIC
      ? null
      : refused(
          'not-a-log',
          `${file}: expected a log of Cabward, but it is something else; it was left as it is`,
        );
  } catch (error) {
    return refused('unreadable', `${file}: expected a log that can be read (${codeOf(error)})`);
  }
}

/** What speaks against a log as SQLite sees it: of another program, or newer than this one. */
function formProblem(database: Database, file: string): Refused | null {
  const version = String(database.prepare('SELECT sqlite_version()').pluck().get());
  if (!isNewEnough(version))
    return refused(
      'sqlite-too-old',
      `expected SQLite ${OLDEST_SQLITE.join('.')} or newer, but this is ${version}`,
    );
  const form = versionOf(database);
  const application = Number(database.pragma('application_id', { simple: true }));
  const tables = Number(database.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
  if (application !== APPLICATION_ID && (application !== 0 || tables > 0))
    return refused('not-a-log', `${file}: expected a log of Cabward, but it is a database of something else`);
  if (form > NEWEST_VERSION)
    return refused(
      'from-the-future',
      `${file}: this log is from the future: a newer Cabward wrote it (form ${form}, this one knows up to ${NEWEST_VERSION}); use the newer one, or name another file with --log`,
    );
  return null;
}

/** The guards that hold for every connection. */
function guard(database: Database): void {
  database.pragma('foreign_keys = ON');
  database.pragma('trusted_schema = OFF');
  database.pragma('busy_timeout = 5000');
  database.pragma('mmap_size = 0');
}

/**
 * Makes every commit reach the disk before it returns.
 *
 * This build falls to NORMAL in WAL after the first write unless FULL is set for the connection, so it is set at each opening and read back.
 */
function makeDurable(database: Database): boolean {
  const mode = database.pragma('journal_mode = WAL', { simple: true });
  database.pragma('synchronous = FULL');
  database.pragma('fullfsync = 1');
  database.pragma('checkpoint_fullfsync = 1');
  return mode === 'wal' && isDurable(database);
}

/** Whether a commit is on disk when it returns (`synchronous` reads FULL, which is 2). */
export function isDurable(database: Database): boolean {
  return database.pragma('synchronous', { simple: true }) === 2;
}

const codeOf = (error: unknown) =>
  error instanceof Error && 'code' in error ? String(error.code) : String(error);

const isDamage = (error: unknown) => /^SQLITE_(CORRUPT|NOTADB)/.test(codeOf(error));

/** A log of so many bytes is gone through whole in half a second. */
const CHECKED_WHOLE_BYTES = 128 * 1024 * 1024;
/** Nearly all of a log. Each evening in them is gone through when it is opened, and all of it by verify and for each backup. */
const LONG_TABLES: readonly unknown[] = ['events', 'checkpoints'];

/**
 * What SQLite's own quick check finds wrong with a file; null when it is sound.
 *
 * @param wholeUpTo bytes; of a larger file the tables that make it large are left out, since nobody waits minutes for the console to start
 */
export function damageOf(database: Database, wholeUpTo = CHECKED_WHOLE_BYTES): string | null {
  try {
    const pages = Number(database.pragma('page_count', { simple: true }));
    const isSmall = pages * Number(database.pragma('page_size', { simple: true })) <= wholeUpTo;
    const tables = database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all();
    const checks = isSmall
      ? ['quick_check']
      : tables.filter((name) => !LONG_TABLES.includes(name)).map((name) => `quick_check(${String(name)})`);
    const found = checks.map((check) => database.pragma(check, { simple: true })).find((one) => one !== 'ok');
    return found === undefined ? null : String(found).split('\n').slice(0, 2).join(' ');
  } catch (error) {
    if (isDamage(error)) return codeOf(error);
    throw error;
  }
}

const damagedWords = (file: string, found: string) =>
  `${file} is damaged (${found}). It is open for reading only; nothing can be added. Make a copy of it, then put back a backup or start a new log with --log.`;

/** The oldest form in which a log has all that is read of it; what came later is an index, or can be stood in for. */
const OLDEST_READ = 30;

/** Lets a log of an older form be read, which stays in that form: a backup from before an update, or a damaged log. */
function standIn(database: Database): void {
  if (versionOf(database) < NEWEST_VERSION)
    database.exec('CREATE TEMP TABLE IF NOT EXISTS partial_sessions (session INTEGER)');
}

/** Opens an existing log for reading only. */
export function openForReading(file: string): OpenedForReading {
  if (!existsSync(file)) return refused('no-such-file', `${file}: expected a log, but there is no such file`);
  const problem = fileProblem(file);
  if (problem !== null) return problem;
  let database: Database | undefined;
  try {
    database = new Sqlite(file, { readonly: true, fileMustExist: true });
    guard(database);
    const form = formProblem(database, file);
    if (form !== null || versionOf(database) < OLDEST_READ) {
      database.close();
      return (
        form ??
        refused(
          'not-a-log',
          `${file}: expected a log, but it is empty or of an old form; start the console on it once`,
        )
      );
    }
    standIn(database);
    return { ok: true, log: database as ReadableLog };
  } catch (error) {
    database?.close();
    if (isDamage(error))
      return refused('damaged', `${file} is damaged and cannot be read (${codeOf(error)})`);
    return refused('unreadable', `${file}: expected a log that can be read (${codeOf(error)})`);
  }
}

/**
 * Opens the log that this process writes, and makes it where there is none. The caller holds its lock.
 *
 * @returns the log; a damaged one is opened for reading only, with the words to show
 */
export function openForWriting(file: string): OpenedForWriting {
  const problem = fileProblem(file);
  if (problem !== null) return problem;
  let database: Database | undefined;
  try {
    database = new Sqlite(file);
    guard(database);
    const form = formProblem(database, file);
    const found = form === null ? damageOf(database) : null;
    if (form !== null) {
      database.close();
      return form;
    }
    if (found !== null) {
      database.close();
      return openDamaged(file, found);
    }
    if (!makeDurable(database)) {
      database.close();
      return refused(
        'not-durable',
        `${file}: expected a disk on which a log can be kept safely (not a network share)`,
      );
    }
    database.pragma(`application_id = ${APPLICATION_ID}`);
    migrate(database);
    return { ok: true, damaged: false, log: database as WritableLog };
  } catch (error) {
    database?.close();
    if (isDamage(error)) return openDamaged(file, codeOf(error));
    return refused('unreadable', `${file}: expected a log that can be read and written (${codeOf(error)})`);
  }
}

function openDamaged(file: string, found: string): OpenedForWriting {
  try {
    const database = new Sqlite(file, { readonly: true, fileMustExist: true });
    guard(database);
    database.prepare('SELECT count(*) FROM sessions').get();
    standIn(database);
    return { ok: true, damaged: true, log: database as ReadableLog, says: damagedWords(file, found) };
  } catch {
    return refused(
      'damaged',
      `${file} is damaged (${found}) and cannot be read; it was left as it is. Put back a backup, or start a new log with --log.`,
    );
  }
}
