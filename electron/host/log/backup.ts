/** Online backup: a copy made while the log is in use, checked before it gets its name, and the oldest ones dropped. */
import { mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { WritableLog } from './log.ts';
import type { Verdict } from './verify.ts';

const BACKUPS_KEPT = 10;

/** The folder beside a log in which its backups are. */
export const backupFolder = (log: string) => join(dirname(log), 'backups');

const stampOf = (at: string) => at.replace(/[:.]/g, '-');

/** When a backup was made, by its file's name, RFC 3339; null where that does not say. */
export function madeAt(file: string): string | null {
  const [, day, hour, minute, second, part] =
    /(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z\.cabward$/.exec(file) ?? [];
  return day === undefined ? null : `${day}T${hour}:${minute}:${second}.${part}Z`;
}

/**
 * Makes a backup of a log.
 *
 * @param at RFC 3339; the file is named by it
 * @param finish makes the copy one file that is on the disk, and tells whether it is sound
 * @returns path of the backup. Throws when the copy is not sound.
 */
export async function backUp(
  log: WritableLog,
  at: string,
  finish: (copy: string) => Promise<Verdict>,
): Promise<string> {
  const folder = backupFolder(log.name);
  mkdirSync(folder, { recursive: true });
  const stem = basename(log.name).replace(/\.cabward$/, '');
  const file = join(folder, `${stem}-${stampOf(at)}.cabward`);
  const unfinished = `${file}.unfinished`;
  try {
    await log.backup(unfinished);
    const { good, says } = await finish(unfinished);
    if (!good) throw new Error(`the backup is not sound: ${says[0] ?? ''}`);
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
