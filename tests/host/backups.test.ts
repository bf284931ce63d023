/** Backups: brought back what is missing, nothing else touched; a damaged log is replaced at the next start and kept aside. */
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import type { EveningCard, ReplyOf } from '../../shared-model/wire/contract.ts';
import { answered, type HostUnderTest } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import { recordedLog } from '../support/recorded-log.ts';
import { addNotes, openedLog } from '../support/small-log.ts';

const evenings = (host: HostUnderTest) => answered<EveningCard[]>(host.call('evenings.list', {}));
const backups = (host: HostUnderTest) => answered<ReplyOf<'log.backups'>>(host.call('log.backups', {}));
const heads = async (host: HostUnderTest) =>
  Object.fromEntries((await evenings(host)).map(({ name, headHash }) => [name, headHash]));
const verified = (host: HostUnderTest) => answered(host.call('log.verify', {}));

test('an evening that was deleted comes back from a backup with its own head; the chains of the others are valid all the while', async () => {
  const host = directHost(openedConsole({ log: recordedLog(3) }));
  const before = await heads(host);
  await answered(host.call('log.backup', {}));
  const [card] = (await evenings(host)).filter(({ name }) => name === 'Meet 2');
  await answered(host.call('evenings.update', { id: card?.id, note: 'the second' }));
  await answered(host.call('evenings.remove', { id: card?.id, confirm: 'Meet 2' }));
  expect(Object.keys(await heads(host)).sort()).toEqual(['Meet 1', 'Meet 3']);
  expect(await verified(host)).toMatchObject({ good: true });

  const [backup] = await backups(host);
  expect(backup).toMatchObject({ evenings: 3, problem: null });
  const restored = await host.call('log.restore', { file: backup?.file });
  expect(restored).toMatchObject({ ok: true, value: { evenings: 1, railroads: 0 } });
  expect(await heads(host)).toEqual(before);
  expect(await verified(host)).toMatchObject({ good: true });
  expect(await host.call('log.restore', { file: backup?.file })).toMatchObject({
    value: { evenings: 0, says: 'Everything in this backup is in the log already.' },
  });
});

test('a railroad that was removed comes back; what is kept beside a sheet too', async () => {
  const host = directHost(openedConsole({ log: recordedLog() }));
  await answered(host.call('keep.write', { kind: 'train-sheet', id: 'evening-1', value: { place: 'Shed' } }));
  await answered(host.call('log.backup', {}));
  const [railroad] = await answered<ReplyOf<'railroads.list'>>(host.call('railroads.list', {}));
  await answered(host.call('railroads.remove', { id: railroad?.id }));
  await answered(host.call('keep.remove', { kind: 'train-sheet', id: 'evening-1' }));
  const [backup] = await backups(host);
  expect(await host.call('log.restore', { file: backup?.file })).toMatchObject({ value: { railroads: 1 } });
  expect(await host.call('railroads.list', {})).toMatchObject({ value: [{ name: railroad?.name }] });
  expect(await host.call('keep.list', { kind: 'train-sheet' })).toMatchObject({
    value: [{ id: 'evening-1', value: { place: 'Shed' } }],
  });
});

test('a backup that was changed is refused and says where; nothing of it comes in', async () => {
  const console = openedConsole({ log: recordedLog(2) });
  const host = directHost(console);
  await answered(host.call('log.backup', {}));
  const [backup] = await backups(host);
  const file = join(dirname(console.log), 'backups', backup?.file ?? '');
  const tampering = new Sqlite(file);
  tampering.exec('DROP TRIGGER events_never_change');
  tampering.exec(`UPDATE events SET json = json || ' ' WHERE session = 2 AND entry = 5`);
  tampering.close();
  const [, second] = await evenings(host);
  await answered(host.call('evenings.remove', { id: second?.id, confirm: second?.name }));
  expect(await host.call('log.restore', { file: backup?.file })).toMatchObject({
    ok: false,
    problem: {
      kind: 'refused',
      says: expect.stringMatching(/is not what was written: the guard events_never_change was taken out/),
    },
  });
  expect(await evenings(host)).toHaveLength(1);
});

test('a name that is no backup, or leads out of the folder, is refused', async () => {
  const host = directHost(openedConsole({ log: recordedLog() }));
  for (const file of ['other.cabward', '../evenings.cabward'])
    expect(await host.call('log.restore', { file })).toMatchObject({
      ok: false,
      problem: { path: '$.file' },
    });
});

test('a damaged log is set aside at the next start, and the backup is in its place', async () => {
  const log = recordedLog(2);
  const sound = openedConsole({ log });
  const before = await heads(directHost(sound));
  await answered(directHost(sound).call('log.backup', {}));
  await sound.close();
  const tampering = new Sqlite(log);
  // An evening left open whose entries were changed cannot be gone on with: the log is for reading only.
  tampering.exec('DROP TRIGGER events_never_change');
  tampering.exec('UPDATE sessions SET ended_at = NULL WHERE id = 2');
  tampering.exec(`UPDATE events SET json = json || ' ' WHERE session = 2 AND entry = 5`);
  tampering.close();

  const damaged = openedConsole({ log });
  const host = directHost(damaged);
  const [backup] = await backups(host);
  const restored = await answered<{ says: string }>(host.call('log.restore', { file: backup?.file }));
  expect(restored.says).toContain('started again');
  await damaged.close();

  const again = directHost(openedConsole({ log }));
  expect(await heads(again)).toEqual(before);
  expect(await verified(again)).toMatchObject({ good: true });
  expect(
    readdirSync(dirname(log)).filter((name) => name.startsWith('evenings.cabward.damaged-')),
  ).not.toEqual([]);
  expect(existsSync(`${log}.next`)).toBe(false);
});

test('a file that is no log is listed with what is wrong with it', async () => {
  const console = openedConsole({ log: recordedLog() });
  const host = directHost(console);
  await answered(host.call('log.backup', {}));
  writeFileSync(join(dirname(console.log), 'backups', 'evenings-0.cabward'), 'not a log');
  expect((await backups(host)).map(({ problem }) => problem === null)).toEqual([true, false]);
});

test('a backup from before an update is listed with its evenings, and comes back', async () => {
  const console = openedConsole({ log: recordedLog(2) });
  const host = directHost(console);
  await answered(host.call('log.backup', {}));
  const [made] = await backups(host);
  const old = new Sqlite(join(dirname(console.log), 'backups', made?.file ?? ''));
  old.exec('DROP TABLE partial_sessions; PRAGMA user_version = 40');
  old.close();
  await answered(host.call('evenings.remove', { id: '2', confirm: 'Meet 2' }));
  expect(await backups(host)).toMatchObject([{ evenings: 2, problem: null }]);
  expect(await host.call('log.restore', { file: made?.file })).toMatchObject({ value: { evenings: 1 } });
});

test('a restore says how far it is, whatever the length of the evenings that come back', async () => {
  const console = openedConsole();
  const host = directHost(console);
  const folder = join(dirname(console.log), 'backups');
  mkdirSync(folder, { recursive: true });
  const backup = openedLog(join(folder, 'two.cabward'));
  addNotes(backup, 137, { uid: 'short', size: 137 });
  addNotes(backup, 3000, { uid: 'long', size: 1000 });
  backup.close();
  expect(await host.call('log.restore', { file: 'two.cabward' })).toMatchObject({ value: { evenings: 2 } });
  const written = host.pushes.flatMap(({ value }) =>
    (value as { written?: true }).written === true ? [value] : [],
  );
  expect(written.length).toBeGreaterThan(1);
  expect(written[0]).toMatchObject({ of: 3137 });
});

test('while an evening is on its way out, a backup that has it is not said to be in the log already', async () => {
  const console = openedConsole({ log: recordedLog(2) });
  const host = directHost(console);
  await answered(host.call('log.backup', {}));
  const [backup] = await backups(host);
  const restore = () => host.call('log.restore', { file: backup?.file });
  const leaving = new Sqlite(console.log);
  leaving.exec('INSERT INTO partial_sessions VALUES (2)');
  expect(await restore()).toMatchObject({
    ok: false,
    problem: { kind: 'refused', says: expect.stringContaining('just being deleted') },
  });
  leaving.exec('DELETE FROM partial_sessions');
  leaving.close();
  expect(await restore()).toMatchObject({ value: { evenings: 0 } });
});
