/** Opening the log that a call names, for reading, and finding the evening in it. */
import { existsSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { defaultLogFile } from '../host/data-folder.ts';
import type { ReadableLog } from '../host/log/log.ts';
import { openForReading } from '../host/log/open-log.ts';
import { type SessionRow, sessionRow, sessionRows } from '../host/log/sessions.ts';
import { type Answer, inputError } from './answer.ts';

/** Path of the log that a call means. */
export const logFile = (named: string | undefined): string => named ?? defaultLogFile();

/** Whether the console was never used on this machine, and no log was named. */
export const isUnused = (named: string | undefined): boolean =>
  named === undefined && !existsSync(logFile(named));

/** Does something with a log that is open for reading, and closes it. */
export function withLog(named: string | undefined, act: (log: ReadableLog) => Answer): Answer {
  const file = logFile(named);
  const opened = openForReading(file);
  if (!opened.ok) return inputError(opened.problem.says);
  try {
    return act(opened.log);
  } catch (error) {
    if (!(error instanceof Sqlite.SqliteError)) throw error;
    return inputError(`${file} is damaged (${error.code}); cabward verify tells what is wrong with it`);
  } finally {
    opened.log.close();
  }
}

/** Evenings that are named where another was asked for. */
const MOST_NAMED = 10;

/** Does something with one evening of a log: a number as `sessions` lists them, or "last". */
export function withEvening(
  named: string | undefined,
  session: string,
  act: (log: ReadableLog, row: SessionRow) => Answer,
): Answer {
  if (isUnused(named)) return inputError(`session "${session}": no evening was held yet`);
  return withLog(named, (log) => {
    const all = sessionRows(log);
    const row =
      session === 'last' ? all[0] : /^\d{1,15}$/.test(session) ? sessionRow(log, Number(session)) : undefined;
    if (row !== undefined && row !== null) return act(log, row);
    const newest = all.slice(0, MOST_NAMED).map(({ id }) => id);
    const more = all.length > newest.length ? ' … (cabward sessions lists them all)' : '';
    const known = all.length === 0 ? 'there is none yet' : `one of ${newest.join(', ')}${more}`;
    return inputError(
      `session "${session}": expected the number of an evening in the log, or last: ${known}`,
    );
  });
}
