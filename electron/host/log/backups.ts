/** The backups beside a log: which there are, and bringing back from one what the log has not. */
import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { copyFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { BackupCard } from '../../../shared-model/wire/evening-calls.ts';
import { backupFolder, madeAt } from './backup.ts';
import { readDocument } from './documents.ts';
import { readEvents } from './events.ts';
import { keep, keptOf } from './kept.ts';
import { addRailroad, addVersion, railroadRows, versionRows } from './library.ts';
import type { ReadableLog, WritableLog } from './log.ts';
import { openForReading, openForWriting } from './open-log.ts';
import { type Arrival, knowsEvening } from './partial.ts';
import { initialStateOf, sessionRows } from './sessions.ts';
import type { Verdict } from './verify.ts';

/** A database is one file or several: what may lie beside it. */
const ENDS = ['', '-wal', '-shm', '-journal'] as const;

/** The backups, the newest first by name: they are named by the moment at which they were made. */
export function backupCards(log: string): readonly BackupCard[] {
  const folder = backupFolder(log);
  if (!existsSync(folder)) return [];
  const names = readdirSync(folder).filter((name) => name.endsWith('.cabward'));
  return names
    .sort()
    .toReversed()
    .map((file) => {
      const path = join(folder, file);
      const bytes = statSync(path).size;
      const opened = openForReading(path);
      const made = madeAt(file);
      if (!opened.ok) return { file, bytes, made, evenings: 0, newest: null, problem: opened.problem.says };
      try {
        const rows = sessionRows(opened.log);
        return { file, bytes, made, evenings: rows.length, newest: rows[0]?.openedAt ?? null, problem: null };
      } finally {
        opened.log.close();
      }
    });
}

/** A backup that was found sound, open on a copy of its own; the caller closes it. */
export type SoundBackup =
  | { readonly ok: true; readonly log: ReadableLog; readonly path: string; readonly close: () => void }
  | { readonly ok: false; readonly says: string };

/**
 * Opens a backup for restoring: a copy, brought to the newest form, gone through whole.
 *
 * @param log path of the log whose backup it is
 * @param file name in the folder of backups
 * @param goThrough whether a log is what was written; null where that was given up
 */
export async function openSoundBackup(
  log: string,
  file: string,
  goThrough: (log: string) => Promise<Verdict | null>,
): Promise<SoundBackup> {
  const source = join(backupFolder(log), file);
  if (file !== basename(file) || !existsSync(source))
    return { ok: false, says: `There is no backup ${file}.` };
  const path = `${log}.restoring`;
  const drop = () => {
    for (const end of ENDS) rmSync(`${path}${end}`, { force: true });
  };
  drop();
  await copyFile(source, path);
  const opened = openForWriting(path);
  if (!opened.ok || opened.damaged) {
    if (opened.ok) opened.log.close();
    drop();
    return { ok: false, says: `${file}: ${opened.ok ? opened.says : opened.problem.says}` };
  }
  const close = () => {
    opened.log.close();
    drop();
  };
  try {
    const verdict = await goThrough(path);
    if (verdict?.good === true) return { ok: true, log: opened.log, path, close };
    close();
    if (verdict === null) return { ok: false, says: 'It was given up. Nothing was restored.' };
    return {
      ok: false,
      says: `${file} is not what was written: ${verdict.says[0] ?? ''}. Nothing was restored.`,
    };
  } catch (error) {
    close();
    throw error;
  }
}

/** The evenings of a backup that the log has not, the oldest first; one that was not ended when it was made is ended by it. */
export function missingEvenings(from: ReadableLog, log: ReadableLog, at: string): readonly Arrival[] {
  return sessionRows(from)
    .filter(({ uid }) => !knowsEvening(log, uid))
    .toReversed()
    .map((row) => {
      const { id, uid, railroadHash, openedAt, name, note, archived, head, entries } = row;
      return {
        header: { uid, railroadHash, openedAt, initial: initialStateOf(from, id) },
        document: readDocument(from, railroadHash),
        labels: { name, note, archived, endedAt: row.endedAt ?? at },
        head,
        count: entries,
        events: (first, last) => readEvents(from, id, first, last),
      };
    });
}

/** Railroads of which the log has no version with the same content. */
function copyRailroads(from: ReadableLog, log: WritableLog, at: string): number {
  const known = new Set(railroadRows(log).flatMap(({ id }) => versionRows(log, id).map(({ hash }) => hash)));
  const missing = railroadRows(from).filter(({ hash }) => hash !== null && !known.has(hash));
  for (const { hash, name, demo } of missing)
    addVersion(
      log,
      addRailroad(log, name, demo, at),
      readDocument(from, hash ?? ''),
      'brought back from a backup',
      at,
    );
  return missing.length;
}

/**
 * Brings back what a backup has beside its evenings and the log has not; nothing that the log has is changed.
 *
 * @param kinds of kept documents to bring back
 * @param at now, RFC 3339
 * @returns how many railroads came back
 */
export function bringBackBeside(
  from: ReadableLog,
  log: WritableLog,
  kinds: readonly string[],
  at: string,
): number {
  for (const kind of kinds) {
    const there = new Set(keptOf(log, kind).map(({ id }) => id));
    for (const one of keptOf(from, kind)) if (!there.has(one.id)) keep(log, kind, one.id, one.value, one.at);
  }
  return copyRailroads(from, log, at);
}

/** Where a backup waits to take the place of a damaged log at the next start. */
const waiting = (log: string): string => `${log}.next`;

/** Lets a sound backup take the place of a damaged log at the next start. */
export function replaceAtStart(log: string, sound: Extract<SoundBackup, { ok: true }>): void {
  sound.log.pragma('journal_mode = DELETE');
  sound.log.close();
  renameSync(sound.path, waiting(log));
}

/**
 * Puts a backup that waits for it in the place of a log, which is set aside under another name. The caller holds the lock.
 *
 * @param at now, RFC 3339; the log that is set aside is named by it
 */
export function takeReplacement(log: string, at: string): void {
  if (!existsSync(waiting(log))) return;
  const aside = `${log}.damaged-${at.replace(/[:.]/g, '-')}`;
  for (const end of ENDS) if (existsSync(`${log}${end}`)) renameSync(`${log}${end}`, `${aside}${end}`);
  renameSync(waiting(log), log);
}
