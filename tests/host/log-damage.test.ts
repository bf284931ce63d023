/** Damage is found and told, and never written over: flipped bytes, cut tails, other programs' files, logs from the future. */
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { damageOf, isNewEnough, openForReading, openForWriting } from '../../electron/host/log/open-log.ts';
import { sessionRows } from '../../electron/host/log/sessions.ts';
import { verifyLog } from '../../electron/host/log/verify.ts';
import { chanceOf } from '../support/chance.ts';
import { addNotes, openedLog } from '../support/small-log.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** A closed log of 120 entries, in one file. */
function closedLog(): string {
  const log = openedLog();
  addNotes(log, 120);
  log.pragma('wal_checkpoint(TRUNCATE)');
  const { name } = log;
  log.close();
  return name;
}

/** Rows as they are without the guards, for planting a fault. */
function tamper(file: string, sql: string): void {
  const database = new Sqlite(file);
  for (const name of database.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all())
    if (sql.includes(String(name).split('_')[0] ?? '')) database.exec(`DROP TRIGGER ${String(name)}`);
  database.exec(sql);
  database.close();
}

function verdictOf(file: string) {
  const opened = openForReading(file);
  if (!opened.ok) return { good: false, says: [opened.problem.says] };
  const verdict = verifyLog(opened.log);
  opened.log.close();
  return verdict;
}

test('a sound log is good, and its heads are told', () => {
  const verdict = verdictOf(closedLog());
  expect(verdict.good).toBe(true);
  expect(verdict.says.join('\n')).toMatch(/evening 1: 120 entries, head [0-9a-f]{64}/);
});

test.each([
  ["UPDATE events SET json = replace(json, 'note 57', 'note 58') WHERE entry = 57", 'entry 57 was changed'],
  ['DELETE FROM events WHERE entry = 57', 'entry 57 is missing'],
  ['DELETE FROM events WHERE entry = 120', 'it ends at entry 119, but 120 were written'],
  ["UPDATE sessions SET opened_at = '2020-01-01T00:00:00.000Z'", 'its header was changed'],
  ["UPDATE documents SET json = replace(json, 'Passing', 'Changed')", 'railroad document'],
  ['UPDATE events SET entry = 200 WHERE entry = 120', 'entry 120 is missing'],
])('%s is found by verify', (sql, found) => {
  const file = closedLog();
  tamper(file, sql);
  const verdict = verdictOf(file);
  expect(verdict.good).toBe(false);
  expect(verdict.says.join('\n')).toContain(found);
  expect(verdict.says.join('\n')).toContain('was taken out of the log');
});

/** Everything that was written but labels, which the user may change. */
function written(file: string): unknown {
  const database = new Sqlite(file, { readonly: true });
  const rows = ['sessions', 'events', 'documents'].map((table) =>
    database.prepare<[], Record<string, unknown>>(`SELECT * FROM ${table}`).all(),
  );
  database.close();
  return rows.map((list) => list.map(({ name: _name, note: _note, archived: _archived, ...row }) => row));
}

test('a flipped byte anywhere is found by verify, or changed nothing that was written', () => {
  const file = closedLog();
  const sound = readFileSync(file);
  const before = written(file);
  const chance = chanceOf(20261125);
  const copy = join(temporaryFolder(), 'flipped.cabward');
  let found = 0;
  for (let flip = 0; flip < 300; flip += 1) {
    const bytes = Buffer.from(sound);
    const at = chance.between(0, bytes.length - 1);
    bytes[at] = (bytes[at] ?? 0) ^ (1 << chance.between(0, 7));
    writeFileSync(copy, bytes);
    const verdict = verdictOf(copy);
    expect(verdict.says.length).toBeGreaterThan(0);
    if (verdict.good) expect(written(copy), `byte ${at}`).toEqual(before);
    else found += 1;
  }
  // The others lie in the free space of pages.
  expect(found).toBeGreaterThan(100);
});

test('a log with a broken page is opened for reading only, with the words, and not written', () => {
  const file = closedLog();
  const bytes = readFileSync(file);
  // Page headers of the second half: the newest rows.
  for (let page = Math.floor(bytes.length / 4096 / 2); page < bytes.length / 4096 - 1; page += 1)
    bytes.fill(0xff, page * 4096, page * 4096 + 16);
  writeFileSync(file, bytes);
  const opened = openForWriting(file);
  if (!opened.ok || !opened.damaged) throw new Error('expected a damaged log that can be read');
  expect(opened.says).toContain('is damaged');
  expect(opened.says).toContain('open for reading only');
  expect(() => opened.log.exec("INSERT INTO settings VALUES ('a', '1')")).toThrow('readonly');
  opened.log.close();
  expect(readFileSync(file).equals(bytes)).toBe(true);
});

test('of a large log the evenings themselves are not gone through at the start; a fault anywhere else still is', () => {
  const brokenIn = (table: string): string => {
    const file = closedLog();
    const log = new Sqlite(file, { readonly: true });
    const page = Number(log.prepare('SELECT rootpage FROM sqlite_schema WHERE name = ?').pluck().get(table));
    log.close();
    const bytes = readFileSync(file);
    bytes.fill(0xff, (page - 1) * 4096, (page - 1) * 4096 + 16);
    writeFileSync(file, bytes);
    return file;
  };
  const found = (table: string, wholeUpTo?: number) => {
    const log = new Sqlite(brokenIn(table), { readonly: true });
    onTestFinished(() => void log.close());
    return damageOf(log, wholeUpTo);
  };
  expect(found('events')).not.toBeNull();
  expect(found('events', 0)).toBeNull();
  expect(found('sessions', 0)).not.toBeNull();
  expect(found('documents', 0)).not.toBeNull();
});

test('the tail of the write-ahead log cut or scrambled at every 4 KiB leaves a prefix of what was committed', () => {
  const log = openedLog();
  addNotes(log, 40);
  const folder = temporaryFolder();
  const [base, wal] = [readFileSync(log.name), readFileSync(`${log.name}-wal`)];
  const chance = chanceOf(7);
  const seen = new Set<number>();
  for (let cut = 0; cut < wal.length; cut += 4096)
    for (const tail of ['cut', 'scrambled'] as const) {
      const copy = join(folder, `${cut}-${tail}.cabward`);
      const end = Buffer.from(wal.subarray(cut));
      if (tail === 'scrambled') for (let at = 0; at < end.length; at += 1) end[at] = chance.between(0, 255);
      writeFileSync(copy, base);
      writeFileSync(`${copy}-wal`, Buffer.concat([wal.subarray(0, cut), ...(tail === 'cut' ? [] : [end])]));
      const opened = openForWriting(copy);
      if (!opened.ok || opened.damaged) throw new Error(`${tail} at ${cut}: the log was not recovered`);
      expect(verifyLog(opened.log).good).toBe(true);
      const count = opened.log.prepare('SELECT coalesce(max(entry), 0) FROM events').pluck().get();
      seen.add(Number(count));
      opened.log.close();
    }
  expect(Math.max(...seen)).toBeLessThanOrEqual(40);
  expect(seen.size).toBeGreaterThan(20);
});

test('a log from the future is refused by name and left as it is', () => {
  const file = closedLog();
  tamper(file, 'PRAGMA user_version = 990');
  const before = readFileSync(file);
  for (const opened of [openForWriting(file), openForReading(file)])
    expect(opened).toMatchObject({ ok: false, problem: { code: 'from-the-future' } });
  expect(readFileSync(file).equals(before)).toBe(true);
});

test.each([
  ['text', Buffer.from('{"format":"cabward-railroad/1"}'), 'not-a-log'],
  ['binary garbage', Buffer.from(Array.from({ length: 5000 }, (_, at) => (at * 131) % 251)), 'not-a-log'],
])('%s is no log, and is left as it is', (_what, bytes, code) => {
  const file = join(temporaryFolder(), 'other.cabward');
  writeFileSync(file, bytes);
  for (const opened of [openForWriting(file), openForReading(file)])
    expect(opened).toMatchObject({ ok: false, problem: { code } });
  expect(readFileSync(file).equals(bytes)).toBe(true);
});

test('a database of another program is no log', () => {
  const file = join(temporaryFolder(), 'other.db');
  const other = new Sqlite(file);
  other.exec('CREATE TABLE letters (id INTEGER)');
  other.close();
  expect(openForWriting(file)).toMatchObject({ ok: false, problem: { code: 'not-a-log' } });
});

test('a folder, or a path where nothing is, is told as such', () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, 'a.cabward'));
  expect(openForWriting(join(folder, 'a.cabward'))).toMatchObject({ problem: { code: 'unreadable' } });
  expect(openForReading(join(folder, 'b.cabward'))).toMatchObject({ problem: { code: 'no-such-file' } });
  expect(existsSync(join(folder, 'b.cabward'))).toBe(false);
});

test('a path with letters of all kinds is as good as any', () => {
  const folder = join(temporaryFolder(), 'Abend № 7 – Süd 東');
  mkdirSync(folder);
  const log = openedLog(join(folder, 'Abende.cabward'));
  addNotes(log, 2);
  copyFileSync(log.name, `${log.name}.copy`);
  expect(verifyLog(log).good).toBe(true);
});

test.each([
  ['3.51.2', false],
  ['3.51.3', true],
  ['3.52.0', true],
  ['3.9.9', false],
  ['4.0.0', true],
])('SQLite %s is new enough: %s', (version, enough) => {
  expect(isNewEnough(version)).toBe(enough);
});

test('a log of an older form is read as it is; one of the oldest forms has to be opened by the console first', () => {
  const file = closedLog();
  tamper(file, 'DROP TABLE partial_sessions; PRAGMA user_version = 40');
  const before = readFileSync(file);
  const opened = openForReading(file);
  if (!opened.ok) throw new Error(opened.problem.says);
  expect(sessionRows(opened.log)).toMatchObject([{ entries: 120 }]);
  opened.log.close();
  expect(readFileSync(file).equals(before)).toBe(true);
  tamper(file, 'PRAGMA user_version = 20');
  expect(openForReading(file)).toMatchObject({
    ok: false,
    problem: { says: expect.stringContaining('of an old form') },
  });
});
