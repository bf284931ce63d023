/** Settings by name, and kept documents by kind and id: JSON in, JSON out. */
import type { ReadableLog, WritableLog } from './log.ts';

/** A setting's value; undefined where it was never set or is no JSON any more. */
export function readSetting(log: ReadableLog, name: string): unknown {
  const json = log.prepare('SELECT json FROM settings WHERE name = ?').pluck().get(name);
  if (typeof json !== 'string') return undefined;
  try {
    return JSON.parse(json) as unknown;
  } catch {
    return undefined;
  }
}

export function writeSetting(log: WritableLog, name: string, value: unknown): void {
  log
    .prepare('INSERT INTO settings (name, json) VALUES (?, ?) ON CONFLICT DO UPDATE SET json = excluded.json')
    .run(name, JSON.stringify(value));
}

export interface Kept {
  readonly id: string;
  readonly at: string;
  readonly value: unknown;
}

export function keep(log: WritableLog, kind: string, id: string, value: unknown, at: string): void {
  log
    .prepare(
      `INSERT INTO kept (kind, id, at, json) VALUES (?, ?, ?, ?)
       ON CONFLICT DO UPDATE SET json = excluded.json, at = excluded.at`,
    )
    .run(kind, id, at, JSON.stringify(value));
}

/** A value that is no JSON any more is handed on as its text: it is told from a whole one by its reader, and hides none of the others. */
function keptValue(json: string): unknown {
  try {
    return JSON.parse(json) as unknown;
  } catch {
    return json;
  }
}

/** The kept documents of a kind, newest first. */
export function keptOf(log: ReadableLog, kind: string): readonly Kept[] {
  return log
    .prepare<[string], { id: string; at: string; json: string }>(
      'SELECT id, at, json FROM kept WHERE kind = ? ORDER BY at DESC, id',
    )
    .all(kind)
    .map(({ id, at, json }) => ({ id, at, value: keptValue(json) }));
}

export function dropKept(log: WritableLog, kind: string, id: string): void {
  log.prepare('DELETE FROM kept WHERE kind = ? AND id = ?').run(kind, id);
}
