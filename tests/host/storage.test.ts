/** What the user is told when the disk will not take what is to be written: nothing is done that is not recorded. */
import { existsSync, statSync } from 'node:fs';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { keep, keptOf } from '../../electron/host/log/kept.ts';
import type { WritableLog } from '../../electron/host/log/log.ts';
import { reserveBeside } from '../../electron/host/log/reserve.ts';
import { verifyLog } from '../../electron/host/log/verify.ts';
import { readOnlyStorage, writableStorage } from '../../electron/host/storage.ts';
import type { LogState } from '../../shared-model/wire/contract.ts';
import { addNotes, openedLog } from '../support/small-log.ts';

/** Lets a log grow by so many pages and no further: SQLite answers SQLITE_FULL then, as on a full disk. */
function fillDisk(log: WritableLog, pagesLeft: number): void {
  log.pragma(`max_page_count = ${Number(log.pragma('page_count', { simple: true })) + pagesLeft}`);
}

const bigPage = 'x'.repeat(20_000);
const noReserve = { hold: () => false, giveUp: () => false };

test('on a full disk a write is refused whole, in words, and the log stays sound', () => {
  const log = openedLog();
  addNotes(log, 5);
  const told: LogState[] = [];
  const storage = writableStorage(log, noReserve, (state) => told.push(state));
  fillDisk(log, 2);
  const written = storage.write((open) => {
    keep(open, 'plan', 'small', 1, 'now');
    keep(open, 'plan', 'big', bigPage, 'now');
  });
  expect(written).toMatchObject({ ok: false, problem: { kind: 'fault' } });
  expect(told).toEqual([
    { writable: false, says: expect.stringContaining('nothing is recorded, so nothing is done') },
  ]);
  expect(keptOf(log, 'plan')).toEqual([]);
  expect(log.inTransaction).toBe(false);
  expect(verifyLog(log).good).toBe(true);
});

test('the room that was set aside is given up once, so that the evening can be ended, and the banner says so', () => {
  const log = openedLog();
  const told: LogState[] = [];
  const makeRoom = () => {
    fillDisk(log, 50);
    return true;
  };
  const reserve = { hold: () => false, giveUp: makeRoom };
  const storage = writableStorage(log, reserve, (state) => told.push(state));
  fillDisk(log, 0);
  expect(storage.write((open) => keep(open, 'plan', 'big', bigPage, 'now')).ok).toBe(true);
  expect(told).toEqual([{ writable: true, says: expect.stringContaining('Room that was set aside') }]);
  expect(storage.state()).toEqual(told[0]);
  expect(keptOf(log, 'plan')).toHaveLength(1);
});

test('when there is room again the banner goes', () => {
  const log = openedLog();
  const told: LogState[] = [];
  let room = false;
  const storage = writableStorage(log, { hold: () => room, giveUp: () => false }, (state) =>
    told.push(state),
  );
  fillDisk(log, 0);
  expect(storage.write((open) => keep(open, 'plan', 'big', bigPage, 'now')).ok).toBe(false);
  fillDisk(log, 1000);
  room = true;
  expect(storage.write((open) => keep(open, 'plan', 'big', bigPage, 'now')).ok).toBe(true);
  expect(told.map(({ writable }) => writable)).toEqual([false, true]);
  expect(storage.state()).toEqual({ writable: true, says: null });
});

test.each(['SQLITE_IOERR_WRITE', 'SQLITE_BUSY', 'SQLITE_READONLY'])(
  '%s is told and nothing of the act happened',
  (code) => {
    const log = openedLog();
    const storage = writableStorage(log, noReserve, () => undefined);
    const written = storage.write((open) => {
      keep(open, 'plan', 'a', 1, 'now');
      throw new Sqlite.SqliteError('injected', code);
    });
    expect(written).toMatchObject({
      ok: false,
      problem: { kind: 'fault', says: expect.stringContaining(code) },
    });
    expect(keptOf(log, 'plan')).toEqual([]);
  },
);

test('a damaged log answers every write with the words for that', () => {
  const log = openedLog();
  const storage = readOnlyStorage(log, 'it is damaged');
  expect(storage.write((open) => keep(open, 'plan', 'a', 1, 'now'))).toEqual({
    ok: false,
    problem: { kind: 'refused', says: 'it is damaged' },
  });
  expect(storage.forBackup()).toBeNull();
});

test('the reserve is room on the disk that can be given up', () => {
  const log = openedLog();
  const reserve = reserveBeside(log.name, 100_000);
  expect(reserve.hold()).toBe(true);
  expect(statSync(`${log.name}-reserve`).size).toBe(100_000);
  expect(reserve.giveUp()).toBe(true);
  expect(existsSync(`${log.name}-reserve`)).toBe(false);
  expect(reserve.giveUp()).toBe(false);
});

test('no reserve is held where the disk has not room enough for it', () => {
  const log = openedLog();
  const reserve = reserveBeside(log.name, Number.MAX_SAFE_INTEGER / 8);
  expect(reserve.hold()).toBe(false);
  expect(existsSync(`${log.name}-reserve`)).toBe(false);
});
