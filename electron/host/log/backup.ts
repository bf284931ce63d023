/** Online backup: a copy made while the log is in use, checked before it gets its name, and the oldest ones dropped. */
import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import type { WritableLog } from './log.ts';

const BACKUPS_KEPT = 10;

/** The folder beside a log in which its backups are. */
export const backupFolder = (log: string) => join(dirname(log), 'backups');

function flush(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/**
 * Makes a backup of a log.
 *
 * @param at RFC 3339; the file is named by it
 * @returns path of the backup. Throws when the copy is not sound.
 */
export async function backUp(log: WritableLog, at: string): Promise<string> {
  const folder = backupFolder(log.name);
  mkdirSync(folder, { recursive: true });
  const stem = basename(log.name).replace(/\.cabward$/, '');
  const file = join(folder, `${stem}-${at.replace(/[:.]/g, '-')}.cabward`);
  const unfinished = `${file}.unfinished`;
  try {
    await log.backup(unfinished);
    const copy = new Sqlite(unfinished);
    // A single file that can be carried away: no write-ahead log beside it.
    copy.pragma('journal_mode = DELETE');
    const found = copy.pragma('integrity_check', { simple: true });
    copy.close();
    if (found !== 'ok') throw new Error(`the backup is not sound: ${String(found)}`);
    flush(unfinished);
    renameSync(unfinished, file);
  } finally {
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${unfinished}${end}`, { force: true });
  }
  dropOldest(folder, stem);
  return file;
}

function dropOldest(folder: string, stem: string): void {
  const backups = readdirSync(folder)
    .filter((name) => name.startsWith(`${stem}-`) && name.endsWith('.cabward'))
    .sort();
  for (const name of backups.slice(0, -BACKUPS_KEPT)) rmSync(join(folder, name), { force: true });
}
