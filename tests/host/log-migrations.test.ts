/** Migrations: in order, each in a transaction of its own, and a log of any older form comes out the same. */
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { MIGRATIONS, migrate, NEWEST_VERSION, versionOf } from '../../electron/host/log/migrate.ts';

const schemaOf = (database: Sqlite.Database) =>
  database.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY type, name').all();

test('versions go up in tens', () => {
  expect(MIGRATIONS.map(({ version }) => version)).toEqual([10, 20, 30, 40, 50]);
  expect(NEWEST_VERSION).toBe(50);
});

test.each(MIGRATIONS.map(({ version }) => version))(
  'a log of form %i comes out as a new one does',
  (version) => {
    const whole = new Sqlite(':memory:');
    migrate(whole);
    const old = new Sqlite(':memory:');
    migrate(old, MIGRATIONS, version);
    expect(versionOf(old)).toBe(version);
    migrate(old);
    expect(versionOf(old)).toBe(NEWEST_VERSION);
    expect(schemaOf(old)).toEqual(schemaOf(whole));
  },
);

test('a migration that fails leaves the form before it', () => {
  const database = new Sqlite(':memory:');
  const broken = [
    { version: 10, sql: 'CREATE TABLE first (id INTEGER) STRICT' },
    { version: 20, sql: 'CREATE TABLE second (id INTEGER) STRICT; CREATE TABLE first (id INTEGER) STRICT' },
  ];
  expect(() => migrate(database, broken)).toThrow(/already exists/);
  expect(versionOf(database)).toBe(10);
  expect(schemaOf(database)).toHaveLength(1);
});

test('a migration out of order is a fault', () => {
  const database = new Sqlite(':memory:');
  const sql = 'SELECT 1';
  expect(() =>
    migrate(database, [
      { version: 20, sql },
      { version: 10, sql },
    ]),
  ).toThrow('10 does not come after 20');
});

test('every table is strict', () => {
  const database = new Sqlite(':memory:');
  migrate(database);
  const tables = database.pragma('table_list') as { name: string; schema: string; strict: number }[];
  const own = tables.filter(({ name, schema }) => schema === 'main' && !name.startsWith('sqlite_'));
  expect(own.map(({ name }) => name).sort()).toEqual([
    'checkpoints',
    'documents',
    'events',
    'kept',
    'partial_sessions',
    'railroad_drafts',
    'railroad_versions',
    'railroads',
    'removed_sessions',
    'sessions',
    'settings',
  ]);
  expect(own.filter(({ strict }) => strict !== 1)).toEqual([]);
});
