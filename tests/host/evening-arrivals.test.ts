/** A long evening comes in, comes back or goes out in short turns: orders are carried out meanwhile, and it is there whole or not at all. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { contentHash } from '../../electron/host/log/chain.ts';
import { openForWriting } from '../../electron/host/log/open-log.ts';
import { writeArrival } from '../../electron/host/log/partial.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import type { EveningCard, ReplyOf } from '../../shared-model/wire/contract.ts';
import { passingSidingExample } from '../support/example.ts';
import { answered, type HostUnderTest, item, openEvening } from '../support/host-suite.ts';
import { broughtIn, exported, logOfLongEvening } from '../support/long-evening.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import { noteEvent, OPENED_AT, openedLog } from '../support/small-log.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { startedServer, webHost } from '../support/web-host.ts';

const names = async (host: HostUnderTest) =>
  (await answered<EveningCard[]>(host.call('evenings.list', {}))).map(({ name }) => name);
const note = (host: HostUnderTest, text: string) =>
  answered<{ events: unknown[] }>(host.call('evening.send', { items: [item({ do: 'note', text })] }));

let made: Promise<string> | null = null;
const longFile = () => {
  made ??= exported(directHost(openedConsole({ log: logOfLongEvening() })), '1').then((parts) =>
    parts.join(''),
  );
  return made;
};

/** Waits until something is being written, of the import or the restore. */
const isWritten = (host: HostUnderTest) =>
  expect
    .poll(() => host.pushes.some(({ value }) => (value as { written?: true }).written === true), {
      interval: 1,
      timeout: 60_000,
    })
    .toBe(true);

test('over the wire: while a long evening is written into the log, orders of the evening that is going on are answered, and the list has it only when it is whole', async () => {
  const text = await longFile();
  const host = await webHost(await startedServer());
  await openEvening(host);
  const coming = broughtIn(host, text, 1_500_000);
  let isThere = false;
  void coming.then(() => {
    isThere = true;
  });
  await isWritten(host);
  const orders = await note(host, 'said meanwhile');
  expect(orders.events).toHaveLength(1);
  expect(await names(host)).not.toContain('Long');
  expect(isThere).toBe(false);
  expect(await coming).toMatchObject({ ok: true, value: { name: 'Long', entries: 4803 } });
  expect(await names(host)).toContain('Long');
  expect(await answered(host.call('log.verify', {}))).toMatchObject({ good: true });
});

test('given up while it is written, nothing of it is left, and it can be brought in again', async () => {
  const text = await longFile();
  const console = openedConsole();
  const host = directHost(console);
  const coming = broughtIn(host, text, 1_500_000);
  await isWritten(host);
  await answered(host.call('evenings.giveUp', { id: 'f' }));
  expect(await coming).toMatchObject({ ok: false, problem: { says: 'This was given up.' } });
  expect(await names(host)).toEqual([]);
  expect(await broughtIn(host, text, 1_500_000, 'again')).toMatchObject({
    ok: true,
    value: { entries: 4803 },
  });
  await console.close();
  const log = openedLog(console.log);
  expect(log.prepare('SELECT count(*) FROM sessions').pluck().get()).toBe(1);
  expect(log.prepare('SELECT count(*) FROM events').pluck().get()).toBe(4803);
});

test('what was left half-way when the program ended is in no list, and is taken out when the log is opened', async () => {
  const file = join(temporaryFolder(), 'evenings.cabward');
  const opened = openForWriting(file);
  if (!opened.ok || opened.damaged) throw new Error('no log');
  const { log } = opened;
  const header = {
    uid: 'half',
    railroadHash: contentHash(passingSidingExample),
    openedAt: OPENED_AT,
    initial: initialState(indexRailroad(passingSidingExample)),
  };
  const events = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, index) => noteEvent(from + index));
  const arrival = { header, document: passingSidingExample, labels: {}, head: '', count: 1000, events };
  const turns = writeArrival(
    (act) => log.transaction(() => act(log))(),
    arrival,
    () => undefined,
  );
  expect([turns.next().value, turns.next().value]).toEqual([100, 200]);
  log.close();

  const console = openedConsole({ log: file });
  expect(await names(directHost(console))).toEqual([]);
  expect(await answered(directHost(console).call('hello', {}))).toMatchObject({ evening: null });
  await console.close();
  const after = openedLog(file);
  for (const table of ['sessions', 'events', 'checkpoints', 'partial_sessions'])
    expect(after.prepare(`SELECT count(*) FROM ${table}`).pluck().get()).toBe(0);
});

test('a long evening is deleted and comes back from a backup while orders go on; given up, nothing comes back', async () => {
  const host = directHost(openedConsole({ log: logOfLongEvening() }));
  await answered(host.call('log.backup', {}));
  await openEvening(host);
  const removing = host.call('evenings.remove', { id: '1', confirm: 'Long' });
  // It is out of the list before all that it had is gone.
  expect(await names(host)).not.toContain('Long');
  await note(host, 'said while it goes');
  expect(await removing).toMatchObject({ ok: true });

  const [backup] = await answered<ReplyOf<'log.backups'>>(host.call('log.backups', {}));
  const restore = () => host.call('log.restore', { file: backup?.file });
  const givenUp = restore();
  await isWritten(host);
  await note(host, 'said while it comes back');
  await answered(host.call('log.giveUp', {}));
  expect(await givenUp).toMatchObject({
    ok: false,
    problem: { says: expect.stringContaining('Nothing was') },
  });
  expect(await names(host)).not.toContain('Long');
  expect(await restore()).toMatchObject({ ok: true, value: { evenings: 1 } });
  expect(await names(host)).toContain('Long');
  expect(await answered(host.call('log.verify', {}))).toMatchObject({ good: true });
});
