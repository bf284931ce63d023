/** A whole log is gone through beside the host: orders go on meanwhile, however long it takes; what breaks there is an answer. */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { type LogWork, logThreadsFrom, type StartLogWork } from '../../electron/host/log-thread.ts';
import { workerFile } from '../../electron/host/open-console.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import { answered, type HostUnderTest, item, openEvening } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import { recordedLog } from '../support/recorded-log.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** Every log in a thread, however small. */
const inThreads = logThreadsFrom(workerFile('log-worker'), 0);

const backups = (host: HostUnderTest) => answered<ReplyOf<'log.backups'>>(host.call('log.backups', {}));

/** Work that ends when the test says so. */
function heldWork() {
  const begun: { readonly task: string; readonly end: (good: boolean) => void }[] = [];
  const start: StartLogWork = ({ task }) => {
    const held: { end: (good: boolean) => void } = { end: () => undefined };
    const verdict = new Promise<Awaited<LogWork['verdict']>>((resolve) => {
      held.end = (good) => resolve({ good, says: good ? [] : ['page 7 is never used'] });
    });
    begun.push({ task, end: (good) => held.end(good) });
    return { verdict, giveUp: () => held.end(false) };
  };
  return { begun, start };
}

const note = (text: string) => ({ items: [item({ do: 'note', text })] });

test.each([
  ['log.backup', 'finish'],
  ['log.verify', 'verify'],
])('orders are carried out while %s goes through the log', async (call, task) => {
  const { begun, start } = heldWork();
  const host = directHost(openedConsole({ startLogWork: start }));
  await openEvening(host);
  let isAnswered = false;
  const asked = host.call(call, {}).then((answer) => {
    isAnswered = true;
    return answer;
  });
  await expect.poll(() => begun.map((one) => one.task)).toEqual([task]);
  for (const text of ['one', 'two', 'three'])
    expect(await host.call('evening.send', note(text))).toMatchObject({ ok: true });
  expect(isAnswered).toBe(false);
  begun[0]?.end(true);
  expect(await asked).toMatchObject({ ok: true });
});

test('a backup that is found unsound is none, and says so', async () => {
  const { begun, start } = heldWork();
  const host = directHost(openedConsole({ startLogWork: start }));
  const asked = host.call('log.backup', {});
  await expect.poll(() => begun.length).toBe(1);
  begun[0]?.end(false);
  expect(await asked).toMatchObject({
    ok: false,
    problem: { says: 'No backup was made: the backup is not sound: page 7 is never used' },
  });
  expect(await backups(host)).toEqual([]);
});

test('in a thread a log is verified as it stood when that began, a backup made, and what was deleted restored from it', async () => {
  const host = directHost(openedConsole({ log: recordedLog(2), startLogWork: inThreads }));
  await openEvening(host);
  const verified = host.call('log.verify', {});
  await answered(host.call('evening.send', note('meanwhile')));
  expect(await verified).toMatchObject({ value: { good: true } });
  await answered(host.call('log.backup', {}));
  await answered(host.call('evenings.remove', { id: '1', confirm: 'Meet 1' }));
  const [backup] = await backups(host);
  const restored = host.call('log.restore', { file: backup?.file });
  expect(await host.call('log.restore', { file: backup?.file })).toMatchObject({
    ok: false,
    problem: { says: 'A backup is being restored already.' },
  });
  await answered(host.call('evening.send', note('meanwhile')));
  expect(await restored).toMatchObject({ ok: true, value: { evenings: 1 } });
});

test('in a thread a changed word is found, and a backup with one is not restored', async () => {
  const console_ = openedConsole({ log: recordedLog(), startLogWork: inThreads });
  const host = directHost(console_);
  await answered(host.call('log.backup', {}));
  const [backup] = await backups(host);
  for (const file of [console_.log, join(dirname(console_.log), 'backups', backup?.file ?? '')]) {
    const tampering = new Sqlite(file);
    tampering.exec('DROP TRIGGER events_never_change');
    tampering.exec(`UPDATE events SET json = json || ' ' WHERE entry = 5`);
    tampering.close();
  }
  expect(await host.call('log.verify', {})).toMatchObject({
    value: { good: false, says: expect.arrayContaining([expect.stringContaining('entry 5 was changed')]) },
  });
  expect(await host.call('log.restore', { file: backup?.file })).toMatchObject({
    ok: false,
    problem: { says: expect.stringContaining('Nothing was restored') },
  });
});

/** A host whose thread is another program. */
function hostWith(program: string) {
  const file = join(temporaryFolder(), 'thread.mjs');
  writeFileSync(file, program);
  const startLogWork = logThreadsFrom(pathToFileURL(file), 0);
  return directHost(openedConsole({ startLogWork, warn: () => undefined }));
}

test('a thread that breaks is an answer, and the host goes on', async () => {
  const host = hostWith('throw new Error("it broke");');
  for (const call of ['log.backup', 'log.verify'])
    expect(await host.call(call, {})).toMatchObject({
      ok: false,
      problem: { kind: 'fault', says: expect.stringContaining('it broke') },
    });
  expect(await backups(host)).toEqual([]);
});

test('going through the log can be given up', async () => {
  const host = hostWith('setInterval(() => undefined, 1000);');
  const verified = host.call('log.verify', {});
  await answered(host.call('log.giveUp', {}));
  expect(await verified).toMatchObject({ ok: false, problem: { says: 'It was given up.' } });
});
