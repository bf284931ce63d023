/** What is done to a whole log, or to a copy of one, away from the host's own thread: on a large log it takes minutes. */
import { closeSync, fsyncSync, openSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { z } from '../../../shared-model/zod.ts';
import { openForReading } from './open-log.ts';
import { type LogProgress, type Verdict, verifyLog } from './verify.ts';

export const logTask = z.strictObject({
  /** `finish`: make a fresh copy one sound file that is on the disk. `verify`: go through a log whole. */
  task: z.enum(['finish', 'verify']),
  /** Path of the log or of the copy. */
  file: z.string(),
});
export type LogTask = z.infer<typeof logTask>;

function flush(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function finish(file: string): Verdict {
  const copy = new Sqlite(file);
  // A single file that can be carried away: no write-ahead log beside it.
  copy.pragma('journal_mode = DELETE');
  const found = String(copy.pragma('integrity_check', { simple: true }));
  copy.close();
  if (found !== 'ok') return { good: false, says: [found] };
  flush(file);
  return { good: true, says: [] };
}

/** Does a task to its end. */
export function doLogTask({ task, file }: LogTask, tell: (progress: LogProgress) => void): Verdict {
  if (task === 'finish') return finish(file);
  const opened = openForReading(file);
  if (!opened.ok) return { good: false, says: [opened.problem.says] };
  try {
    return verifyLog(opened.log, tell);
  } finally {
    opened.log.close();
  }
}
