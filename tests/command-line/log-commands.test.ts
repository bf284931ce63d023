/** `sessions`, `report`, `replay` and `verify`: what the log says, also while the console has it open. */
import { readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { openStorage } from '../../electron/host/open-storage.ts';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { recordedLog } from '../support/recorded-log.ts';
import { cabward, cabwardJson, supportFile } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

type State = Readonly<Record<string, unknown>>;

test('sessions lists the evenings with their counts', async () => {
  const log = recordedLog(2);
  const { sessions } = await cabwardJson<{ sessions: EveningCard[] }>('sessions', '--log', log);
  expect(sessions).toMatchObject([
    { id: '2', name: 'Meet 2', entries: 24, refusals: 8, alarms: 1, people: ['Avery', 'Blake'] },
    { id: '1', name: 'Meet 1', entries: 24, refusals: 8, alarms: 1, people: ['Avery', 'Blake'] },
  ]);
  expect(sessions[0]?.endedAt).toBe('2026-11-25T19:00:42.000Z');
  expect((await cabward('sessions', '--log', log)).out).toContain(
    '2  Meet 2  opened 2026-11-25T19:00:00.000Z',
  );
});

test('the end of a replayed evening is what a rehearsal of its script says', async () => {
  const log = recordedLog();
  const rehearsed = await cabwardJson<State>(
    'rehearse',
    supportFile('passing-siding.railroad.json'),
    supportFile('meet.script.jsonl'),
  );
  const { entries: _entries, ...state } = rehearsed;
  const replayed = await cabwardJson<State>('replay', '1', '--log', log);
  expect(replayed).toMatchObject({ session: '1', entry: 24, at: 42, phase: 'running', ...state });
});

test.each([
  ['0', 1, 0],
  ['5.5', 6, 5],
  ['0:17', 18, 17],
  ['0:00:29', 19, 18],
  ['9:00:00', 24, 42],
])('replayed to %s, it stands after entry %i', async (moment, entry, at) => {
  const replayed = await cabwardJson<State>('replay', '1', '--at', moment, '--log', recordedLog());
  expect(replayed).toMatchObject({ entry, at });
});

test('a report names every entry, its outcome and its reasons, and the head of the chain', async () => {
  const log = recordedLog();
  const { status, out } = await cabward('report', 'last', '--log', log);
  expect(status).toBe(0);
  expect(out).toMatch(/^Meet 1\n/);
  expect(out).toMatch(/ 9 {2}0:00:08 {2}request-move \(to B3, train t7\): refused\. block-occupied: /);
  const { session, events } = await cabwardJson<{ session: EveningCard; events: unknown[] }>(
    'report',
    '1',
    '--log',
    log,
  );
  expect(events).toHaveLength(24);
  expect(out).toContain(`head of the chain: ${session.headHash}`);
});

test('verify says what it checked, and finds a word that was changed', async () => {
  const log = recordedLog(2);
  expect(await cabward('verify', '--log', log)).toMatchObject({
    status: 0,
    out: expect.stringContaining('evening 2: 24 entries'),
  });
  const database = new Sqlite(log);
  database.exec(
    "DROP TRIGGER events_never_change; UPDATE events SET json = replace(json, 'Avery', 'Kim') WHERE session = 1",
  );
  database.close();
  const verdict = await cabward('verify', '--log', log, '--json');
  expect(verdict.status).toBe(1);
  expect(JSON.parse(verdict.out)).toMatchObject({
    good: false,
    says: [
      'the guard events_never_change was taken out of the log',
      'evening 1: entry 2 was changed (the chain breaks there)',
    ],
  });
  expect(await cabward('report', '1', '--log', log)).toMatchObject({ status: 2, out: '' });
  expect(await cabward('report', '2', '--log', log)).toMatchObject({ status: 0 });
});

test.each(['7', 'first', '1.5', '-1'])(
  'the session %s is none, and those that are there are told',
  async (session) => {
    for (const name of ['report', 'replay'])
      expect(await cabward(name, '--log', recordedLog(2), '--', session)).toMatchObject({
        status: 2,
        err: expect.stringContaining('one of 2, 1'),
      });
  },
);

test('a log that the console has open can be read', async () => {
  const log = recordedLog();
  const opened = openStorage(log, 'now', () => undefined);
  expect(await cabward('verify', '--log', log)).toMatchObject({ status: 0 });
  expect(await cabward('sessions', '--log', log)).toMatchObject({ status: 0 });
  if (opened.kind === 'open') opened.opened.close();
});

test('a log too damaged to be read is not good, in one sentence, whichever command asks', async () => {
  const log = recordedLog();
  const bytes = readFileSync(log);
  // The page that says what tables there are.
  bytes.fill(0xaa, 100, 120);
  writeFileSync(log, bytes);
  const verdict = await cabward('verify', '--log', log, '--json');
  expect(verdict.status).toBe(1);
  expect(JSON.parse(verdict.out)).toEqual({ good: false, says: [expect.stringContaining('is damaged')] });
  for (const name of ['sessions', 'report', 'replay'])
    expect(await cabward(name, '--log', log, ...(name === 'sessions' ? [] : ['1']))).toMatchObject({
      status: 2,
      err: expect.stringMatching(/^[^\n]*is damaged[^\n]*\n$/),
    });
});

test('the same log by another name is the same log', () => {
  const log = recordedLog();
  const other = join(temporaryFolder(), 'link.cabward');
  symlinkSync(log, other);
  const opened = openStorage(log, 'now', () => undefined);
  expect(openStorage(other, 'now', () => undefined).kind).toBe('already-running');
  if (opened.kind === 'open') opened.opened.close();
});
