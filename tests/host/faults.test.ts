/** Faults planted at the storage interface: after each, the state shown is the state in the log, and what was not recorded was not done. */
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { bad } from '../../electron/host/answers.ts';
import { makeConsoleHost } from '../../electron/host/console-host.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { makePushes } from '../../electron/host/pushes.ts';
import { type Storage, writableStorage } from '../../electron/host/storage.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { answered, type HostUnderTest, item, openEvening } from '../support/host-suite.ts';
import { directHost, turnedClock } from '../support/open-host.ts';
import { openedLog } from '../support/small-log.ts';

const noReserve = { hold: () => false, giveUp: () => false };

/** A host whose storage fails at the writes that `fails` names, counted from 1 since it was switched on. */
function hostWithFaults(fails: (write: number) => 'before' | 'after' | null) {
  const log = openedLog();
  const pushes = makePushes();
  const sound = writableStorage(log, noReserve, (state) => pushes.tell('log.state', state));
  let writes = Number.NEGATIVE_INFINITY;
  const storage: Storage = {
    ...sound,
    write: (act) => {
      writes += 1;
      const fault = fails(writes);
      if (fault === 'before') return bad('fault', 'injected: the disk is full');
      const done = sound.write(act);
      // It got to the disk, and the answer of the disk was lost.
      return fault === 'after' ? bad('fault', 'injected: the disk did not answer') : done;
    },
  };
  const { clock } = turnedClock();
  const host = makeConsoleHost({
    storage,
    pushes,
    clock,
    uid: () => 'evening',
    version: '0.0.0',
    runtime: 'node',
    startLogWork: () => {
      throw new Error('no log is gone through here');
    },
    startPlanner: () => {
      throw new Error('no planner here');
    },
    warn: () => undefined,
  });
  const switchOn = () => {
    writes = 0;
  };
  const under = directHost({ host, log: log.name, announce: () => undefined, close: async () => undefined });
  return { log, under, switchOn };
}

const shown = (host: HostUnderTest) =>
  answered<{ id: string; state: SessionState }>(host.call('evening.read', {}));

test.each(['before', 'after'] as const)(
  'a write that fails %s it reached the disk, at each of ten places in turn',
  async (when) => {
    for (let place = 1; place <= 10; place += 1) {
      const { log, under, switchOn } = hostWithFaults((write) => (write === place ? when : null));
      const { id } = await openEvening(under);
      switchOn();
      for (let round = 1; round <= 10; round += 1) {
        const items = [item({ do: 'note', text: `round ${round}` }), item({ do: 'call', cab: '1' })];
        const answer = await under.call('evening.send', { items });
        expect(answer.ok).toBe(round !== place);
        const { state } = await shown(under);
        const entries = Number(log.prepare('SELECT entries FROM sessions').pluck().get());
        expect(state).toEqual(stateAt(log, Number(id), entries, false));
      }
      expect((await shown(under)).state.entries).toBe(when === 'before' ? 1 + 18 : 1 + 20);
    }
  },
);

test('a disk that is full in mid-transaction changes nothing that is shown, and the screen is told', async () => {
  const { log, under } = hostWithFaults(() => null);
  await openEvening(under);
  const before = await shown(under);
  log.pragma(`max_page_count = ${Number(log.pragma('page_count', { simple: true }))}`);
  const items = Array.from({ length: 200 }, () => item({ do: 'note', text: 'x'.repeat(1000) }));
  expect(await under.call('evening.send', { items })).toMatchObject({
    ok: false,
    problem: { kind: 'fault' },
  });
  expect(await shown(under)).toEqual(before);
  expect(under.pushes.at(-1)).toMatchObject({ push: 'log.state', value: { writable: false } });
  expect(under.pushes.filter(({ push }) => push === 'evening.events')).toEqual([]);
  log.pragma('max_page_count = 100000');
  expect((await under.call('evening.send', { items })).ok).toBe(true);
  expect((await shown(under)).state.entries).toBe(201);
});

test('an evening that could not be written at its opening was not opened', async () => {
  const { log, under, switchOn } = hostWithFaults((write) => (write === 2 ? 'before' : null));
  switchOn();
  await expect(openEvening(under)).rejects.toThrow('injected');
  expect(await under.call('evening.read', {})).toEqual({ ok: true, value: null });
  expect(log.prepare('SELECT count(*) FROM sessions').pluck().get()).toBe(0);
});

test('a fault of SQLite that is not foreseen is told by its code', async () => {
  const log = openedLog();
  const storage = writableStorage(log, noReserve, () => undefined);
  const written = storage.write(() => {
    throw new Sqlite.SqliteError('constraint', 'SQLITE_CONSTRAINT_TRIGGER');
  });
  expect(written).toMatchObject({
    ok: false,
    problem: { says: expect.stringContaining('SQLITE_CONSTRAINT_TRIGGER') },
  });
});
