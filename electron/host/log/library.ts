/** The library of railroads in the log: published versions by content hash, and drafts that may be broken. */
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { storeDocument } from './documents.ts';
import type { ReadableLog, WritableLog } from './log.ts';

export interface RailroadRow {
  readonly id: number;
  readonly name: string;
  readonly demo: boolean;
  readonly changedAt: string;
  /** Newest published version; 0 while there is none. */
  readonly version: number;
  readonly hash: string | null;
  readonly hasDraft: boolean;
}

interface Stored {
  id: number;
  name: string;
  demo: number;
  changed_at: string;
  version: number | null;
  hash: string | null;
  drafts: number;
}

const SELECT = `SELECT r.id, r.name, r.demo, r.changed_at, v.version, v.hash,
    (SELECT count(*) FROM railroad_drafts d WHERE d.railroad = r.id) AS drafts
  FROM railroads r LEFT JOIN railroad_versions v ON v.railroad = r.id
    AND v.version = (SELECT max(version) FROM railroad_versions WHERE railroad = r.id)`;

const rowOf = (stored: Stored): RailroadRow => ({
  id: stored.id,
  name: stored.name,
  demo: stored.demo === 1,
  changedAt: stored.changed_at,
  version: stored.version ?? 0,
  hash: stored.hash,
  hasDraft: stored.drafts > 0,
});

export function railroadRows(log: ReadableLog): readonly RailroadRow[] {
  return log.prepare<[], Stored>(`${SELECT} ORDER BY r.id`).all().map(rowOf);
}

export function railroadRow(log: ReadableLog, id: number): RailroadRow | null {
  const stored = log.prepare<[number], Stored>(`${SELECT} WHERE r.id = ?`).get(id);
  return stored === undefined ? null : rowOf(stored);
}

export interface VersionRow {
  readonly version: number;
  readonly note: string;
  readonly hash: string;
  readonly at: string;
}

/** The published versions of a railroad, newest first. */
export function versionRows(log: ReadableLog, railroad: number): readonly VersionRow[] {
  return log
    .prepare<[number], VersionRow>(
      'SELECT version, note, hash, at FROM railroad_versions WHERE railroad = ? ORDER BY version DESC',
    )
    .all(railroad);
}

/** The draft as it was sent; undefined where there is none. */
export function readDraft(log: ReadableLog, railroad: number): unknown {
  const json = log.prepare('SELECT json FROM railroad_drafts WHERE railroad = ?').pluck().get(railroad);
  return typeof json === 'string' ? (JSON.parse(json) as unknown) : undefined;
}

/** Adds a railroad without a version; returns its number. */
export function addRailroad(log: WritableLog, name: string, demo: boolean, at: string): number {
  const added = log
    .prepare('INSERT INTO railroads (name, demo, changed_at) VALUES (?, ?, ?)')
    .run(name, Number(demo), at);
  return Number(added.lastInsertRowid);
}

export function writeDraft(
  log: WritableLog,
  railroad: number,
  name: string,
  draft: unknown,
  at: string,
): void {
  log
    .prepare(
      'INSERT INTO railroad_drafts (railroad, json) VALUES (?, ?) ON CONFLICT DO UPDATE SET json = excluded.json',
    )
    .run(railroad, JSON.stringify(draft));
  log.prepare('UPDATE railroads SET name = ?, changed_at = ? WHERE id = ?').run(name, at, railroad);
}

export function dropDraft(log: WritableLog, railroad: number): void {
  log.prepare('DELETE FROM railroad_drafts WHERE railroad = ?').run(railroad);
}

/** Makes a document the newest version of a railroad, and drops its draft. */
export function addVersion(
  log: WritableLog,
  railroad: number,
  document: RailroadDocument,
  note: string,
  at: string,
): void {
  const hash = storeDocument(log, document);
  log
    .prepare(
      `INSERT INTO railroad_versions (railroad, version, hash, note, at)
       SELECT ?, coalesce(max(version), 0) + 1, ?, ?, ? FROM railroad_versions WHERE railroad = ?`,
    )
    .run(railroad, hash, note, at, railroad);
  log.prepare('UPDATE railroads SET name = ?, changed_at = ? WHERE id = ?').run(document.name, at, railroad);
  dropDraft(log, railroad);
}

/** Removes a railroad from the library; the documents of its evenings stay. */
export function removeRailroad(log: WritableLog, railroad: number): void {
  log.prepare('DELETE FROM railroads WHERE id = ?').run(railroad);
}
