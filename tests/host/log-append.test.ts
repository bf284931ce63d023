/** The log is durable, append-only and chained: what goes in stays as it was, in order, and anything else is refused by the file itself. */
import { expect, test } from 'vitest';
import { canonicalJson, sha256 } from '../../electron/host/log/chain.ts';
import { appendEvents, readEvents } from '../../electron/host/log/events.ts';
import { isDurable } from '../../electron/host/log/open-log.ts';
import { beginRemoval, takeOut } from '../../electron/host/log/partial.ts';
import { labelSession, sessionRow, sessionRows } from '../../electron/host/log/sessions.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { verifyLog } from '../../electron/host/log/verify.ts';
import { CHECKPOINT_EVERY } from '../../shared-model/logbook/replay.ts';
import { addNotes, noteEvent, openedLog } from '../support/small-log.ts';

test('commits are on disk when they return: synchronous reads FULL, after a write and after opening again', () => {
  const log = openedLog();
  addNotes(log, 3);
  expect(isDurable(log)).toBe(true);
  expect(log.pragma('journal_mode', { simple: true })).toBe('wal');
  expect(log.pragma('fullfsync', { simple: true })).toBe(1);
  expect(log.pragma('checkpoint_fullfsync', { simple: true })).toBe(1);
  expect(log.pragma('foreign_keys', { simple: true })).toBe(1);
  expect(log.pragma('trusted_schema', { simple: true })).toBe(0);
  const { name } = log;
  log.close();
  expect(isDurable(openedLog(name))).toBe(true);
});

test('events come back as they went in, and the session counts them', () => {
  const log = openedLog();
  const { session } = addNotes(log, 25);
  expect(readEvents(log, session, 1, 25)).toEqual(
    Array.from({ length: 25 }, (_, index) => noteEvent(index + 1)),
  );
  expect(sessionRow(log, session)).toMatchObject({ entries: 25, refusals: 2, alarms: 0 });
});

test.each([
  ["UPDATE events SET json = '{}' WHERE entry = 2", 'the log is only added to'],
  ['DELETE FROM events WHERE entry = 3', 'the log is only added to'],
  ['UPDATE sessions SET opened_at = opened_at', 'the header of an evening never changes'],
  ["UPDATE documents SET json = '{}'", 'a stored railroad document never changes'],
  [
    'INSERT INTO events SELECT session, 9, at, outcome, json, previous, hash FROM events WHERE entry = 3',
    'follows on',
  ],
  [
    'INSERT INTO events SELECT session, 4, at, outcome, json, previous, hash FROM events WHERE entry = 3',
    'follows on',
  ],
  ["INSERT INTO settings VALUES ('theme', 12.5)", ''],
])('the file itself refuses %s', (sql, why) => {
  const log = openedLog();
  addNotes(log, 3);
  if (why === '') expect(log.exec(sql)).toBeDefined();
  else expect(() => log.exec(sql)).toThrow(why);
  expect(verifyLog(log).good).toBe(true);
});

test('a piece whose last event does not follow on leaves nothing of itself behind', () => {
  const log = openedLog();
  const { session, states } = addNotes(log, 3);
  const head = sessionRow(log, session)?.head;
  const after = states.at(-1);
  if (after === undefined) throw new Error('no state');
  const events = [noteEvent(4), noteEvent(5), noteEvent(7)];
  expect(() => appendEvents(log, { session, events, after })).toThrow('follows on');
  expect(readEvents(log, session, 1, 99)).toHaveLength(3);
  expect(sessionRow(log, session)).toMatchObject({ entries: 3, head });
});

test('the state at any entry is the same from the start, from a checkpoint, and with the checkpoints scrambled', () => {
  const log = openedLog();
  const entries = 2 * CHECKPOINT_EVERY + 37;
  const { session, states } = addNotes(log, entries, { size: 10 });
  const kept = log.prepare('SELECT entry FROM checkpoints ORDER BY entry').pluck().all();
  expect(kept).toEqual([CHECKPOINT_EVERY, 2 * CHECKPOINT_EVERY]);
  const asked = [0, 1, CHECKPOINT_EVERY - 1, CHECKPOINT_EVERY, CHECKPOINT_EVERY + 1, entries];
  for (const entry of asked) {
    expect(stateAt(log, session, entry)).toEqual(states[entry]);
    expect(stateAt(log, session, entry, false)).toEqual(states[entry]);
  }
  log.exec(`UPDATE checkpoints SET state = '{"phase":"ended"}' WHERE entry = ${2 * CHECKPOINT_EVERY}`);
  expect(stateAt(log, session, entries)).toEqual(states[entries]);
});

test('a log whose states lie elsewhere, as other versions kept them, gives the same moments and is sound', () => {
  const log = openedLog();
  const { session, states } = addNotes(log, 1100, { size: 10 });
  log.exec('DELETE FROM checkpoints');
  const keep = log.prepare('INSERT INTO checkpoints (session, entry, state, hash) VALUES (?, ?, ?, ?)');
  for (const entry of [500, 1000]) {
    const state = canonicalJson(states[entry]);
    keep.run(session, entry, state, sha256(state));
  }
  expect(verifyLog(log).good).toBe(true);
  for (const entry of [0, 199, 200, 499, 500, 501, 1000, 1100])
    expect(stateAt(log, session, entry)).toEqual(states[entry]);
});

test('who had a cab is kept with the evening, each once', () => {
  const log = openedLog();
  const { session, states } = addNotes(log, 1);
  const after = states.at(-1);
  if (after === undefined) throw new Error('no state');
  const people = ['Avery', 'Blake', 'Avery', null];
  const events = people.map((person, index) => ({
    ...noteEvent(index + 2),
    input: { do: 'assign-cab', cab: '1', person } as const,
  }));
  appendEvents(log, { session, events: events as never, after });
  expect(sessionRow(log, session)?.people).toEqual(['Avery', 'Blake']);
});

test('removing an evening takes it away whole, leaves the chains of the others valid, and is remembered', () => {
  const log = openedLog();
  const first = addNotes(log, 20, { uid: 'one' });
  const second = addNotes(log, 20, { uid: 'two' });
  const head = sessionRow(log, first.session)?.head;
  beginRemoval(log, first.session, '2026-11-26T00:00:00.000Z');
  expect(sessionRows(log).map(({ id }) => id)).toEqual([second.session]);
  expect(verifyLog(log).good).toBe(true);
  for (const _ of takeOut((act) => act(log), first.session));
  expect(readEvents(log, first.session, 1, 99)).toEqual([]);
  expect(verifyLog(log).good).toBe(true);
  expect(log.prepare('SELECT uid, entries, head FROM removed_sessions').all()).toEqual([
    { uid: 'one', entries: 20, head },
  ]);
});

test('labels change what they name and nothing else', () => {
  const log = openedLog();
  const { session } = addNotes(log, 2);
  labelSession(log, session, { name: 'Club night' });
  labelSession(log, session, { archived: true });
  expect(sessionRow(log, session)).toMatchObject({
    name: 'Club night',
    note: '',
    archived: true,
    endedAt: null,
  });
});

test('the same evening has the same links in any log', () => {
  const [one, other] = [openedLog(), openedLog()];
  const heads = [one, other].map((log) => sessionRow(log, addNotes(log, 12).session)?.head);
  expect(heads[0]).toBe(heads[1]);
  expect(heads[0]).not.toBe(sha256(''));
});
