/** Evenings that were: resumed after a crash, carried over to the next, read back, labelled, removed, and carried to another installation. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { answered, type HostUnderTest, item, openEvening } from '../support/host-suite.ts';
import { directHost, openedConsole, turnedClock } from '../support/open-host.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

type Live = { id: string; state: SessionState; now: number; resumed: boolean; recent: SessionEvent[] };

const send = (host: HostUnderTest, ...inputs: object[]) =>
  answered(host.call('evening.send', { items: inputs.map(item) }));
const live = (host: HostUnderTest) => answered<Live>(host.call('evening.read', {}));

/** A short evening with a tag and a phase check, ended. */
async function heldEvening(host: HostUnderTest) {
  const opened = await openEvening(host);
  await send(host, { do: 'assign-cab', cab: '1', person: 'Avery' });
  await send(host, { do: 'selector-stands-at', selector: 'K2', position: '2' });
  await send(host, { do: 'tag', thing: 'K3', why: 'loose knob', by: 'Kim' });
  await send(host, {
    do: 'phase-measured',
    a: 'north',
    b: 'south',
    voltsA: 18,
    voltsB: 18,
    voltsAcross: 0.4,
  });
  await send(host, { do: 'end-session' });
  return opened;
}

test('an evening left open is resumed where it was, the state from the log, and says so', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const { clock, pass } = turnedClock();
  const first = openedConsole({ log, clock });
  const host = directHost(first);
  await openEvening(host);
  pass(30);
  await send(host, { do: 'assign-cab', cab: '1', person: 'Avery' }, { do: 'note', text: 'all here' });
  const before = await live(host);
  await first.close();
  pass(90);
  const again = directHost(openedConsole({ log, clock }));
  const after = await live(again);
  expect(after).toEqual({ ...before, resumed: true, now: 120 });
  expect(await answered(again.call('hello', {}))).toMatchObject({
    evening: { id: before.id, resumed: true },
  });
  await send(again, { do: 'note', text: 'and on' });
  expect((await live(again)).state).toMatchObject({ entries: 4, at: 120 });
});

test('the next evening on a railroad begins as the last was left: knobs, tags, phase checks, all of them older', async () => {
  const { clock, pass } = turnedClock();
  const host = directHost(openedConsole({ clock }));
  const { railroad } = await heldEvening(host);
  pass(86_400);
  await answered(host.call('evening.open', { railroad, alone: false }));
  const { state } = await live(host);
  expect(state.selectors).toMatchObject({
    K1: { position: 'off', presumed: true },
    K2: { position: '2', presumed: true },
  });
  expect(state.tags).toEqual([{ thing: 'K3', why: 'loose knob', by: 'Kim', at: -86_400 }]);
  expect(state.checks).toMatchObject([{ a: 'north', b: 'south', at: -86_400, lapsed: false }]);
  expect(Object.values(state.cabs).filter(({ person }) => person !== null)).toEqual([]);
});

test('a tag survives a restart: of the host in the middle of the evening, and between that evening and the next', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const { clock, pass } = turnedClock();
  const first = openedConsole({ log, clock });
  const { railroad } = await openEvening(directHost(first));
  await send(directHost(first), { do: 'tag', thing: 'K3', why: 'loose knob', by: 'Kim' });
  await first.close();
  pass(60);
  const second = openedConsole({ log, clock });
  expect((await live(directHost(second))).state.tags).toEqual([
    { thing: 'K3', why: 'loose knob', by: 'Kim', at: 0 },
  ]);
  await send(directHost(second), { do: 'end-session' });
  await second.close();
  pass(86_400);
  const third = directHost(openedConsole({ log, clock }));
  await answered(third.call('evening.open', { railroad, alone: false }));
  expect((await live(third)).state.tags).toMatchObject([{ thing: 'K3', why: 'loose knob', by: 'Kim' }]);
  // Only who placed it, or the dispatcher, takes it off; then it is gone for good.
  await send(third, { do: 'untag', thing: 'K3', by: 'Avery' });
  expect((await live(third)).state.tags).toHaveLength(1);
  await send(third, { do: 'untag', thing: 'K3', by: 'Kim' });
  expect((await live(third)).state.tags).toEqual([]);
});

test('the state at any entry is the fold of the events up to it', async () => {
  const host = directHost(openedConsole());
  const { id } = await heldEvening(host);
  for (let entry = 0; entry <= 6; entry += 1)
    expect(await answered(host.call('evenings.stateAt', { id, entry }))).toMatchObject({
      entry,
      state: { entries: entry },
    });
  expect(await host.call('evenings.stateAt', { id, entry: 7 })).toMatchObject({
    problem: { kind: 'not-found' },
  });
});

test('an evening is named, and removed only when its name is said', async () => {
  const host = directHost(openedConsole());
  const { id } = await heldEvening(host);
  const card = await answered<EveningCard>(
    host.call('evenings.update', { id, name: 'Club night', note: 'good' }),
  );
  expect(card).toMatchObject({ name: 'Club night', note: 'good', people: ['Avery'], entries: 6 });
  expect(await host.call('evenings.remove', { id, confirm: 'yes' })).toMatchObject({
    problem: { kind: 'refused', path: '$.confirm' },
  });
  await answered(host.call('evenings.remove', { id, confirm: 'Club night' }));
  expect(await answered(host.call('evenings.list', {}))).toEqual([]);
  expect(await answered(host.call('log.verify', {}))).toMatchObject({ good: true });
});

test('the evening that is going on cannot be removed', async () => {
  const host = directHost(openedConsole());
  const { id } = await openEvening(host);
  const [card] = await answered<EveningCard[]>(host.call('evenings.list', {}));
  expect(await host.call('evenings.remove', { id, confirm: card?.name })).toMatchObject({
    problem: { kind: 'refused', says: expect.stringContaining('going on') },
  });
});

test('ending an evening leaves a backup that opens and is sound', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const console_ = openedConsole({ log });
  const host = directHost(console_);
  await heldEvening(host);
  const { file } = await answered<{ file: string }>(host.call('log.backup', {}));
  await console_.close();
  const restored = directHost(openedConsole({ log: file }));
  expect(await answered(restored.call('log.verify', {}))).toMatchObject({ good: true });
  expect(await answered(restored.call('evenings.list', {}))).toMatchObject([{ entries: 6 }]);
});

test('an evening carried to another installation is the same evening, once', async () => {
  const host = directHost(openedConsole());
  const { id } = await heldEvening(host);
  const { name, text } = await answered<{ name: string; text: string }>(host.call('evenings.export', { id }));
  expect(name).toMatch(/\.evening\.json$/);
  const other = directHost(openedConsole());
  const card = await answered<EveningCard>(other.call('evenings.import', { text }));
  const [own] = await answered<EveningCard[]>(host.call('evenings.list', {}));
  expect({ ...card, id: '' }).toEqual({ ...own, id: '' });
  expect(await answered(other.call('log.verify', {}))).toMatchObject({ good: true });
  expect(await other.call('evenings.import', { text })).toMatchObject({ problem: { kind: 'refused' } });
  expect((await answered<{ text: string }>(other.call('evenings.export', { id: card.id }))).text).toBe(text);
});

test.each([
  ['a word of an entry', (file: string) => file.replace('loose knob', 'loose nut'), /\$\.entries\[3\]/],
  ['an outcome', (file: string) => file.replace('"outcome":"done"', '"outcome":"alarm"'), /\$\.entries\[0\]/],
  ['the railroad', (file: string) => file.replace('"length":1800', '"length":1801'), /\$\.railroad/],
  [
    'the moment of opening',
    (file: string) => file.replace(/"openedAt":"20\d\d/, '"openedAt":"1999'),
    /\$\.entries\[0\]/,
  ],
  [
    'a knob before the first entry',
    (file: string) => file.replace(/"initial":(.*)"position":"off"/, '"initial":$1"position":"1"'),
    /\$\.(initial|entries\[0\])/,
  ],
  ['its name', (file: string) => file.replace('"name":""', '"name":"Other"'), /\$\.seal/],
  ['its end', (file: string) => file.replace(/"endedAt":"20\d\d/, '"endedAt":"1999'), /\$\.seal/],
  ['a last link', (file: string) => file.replace(/"head":"./, '"head":"!'), /\$\.head/],
  ['an unknown field', (file: string) => file.replace('{"endedAt"', '{"extra":1,"endedAt"'), /\$\.extra/],
  ['its end', (file: string) => file.slice(0, -20), /line 1 column/],
])(
  'a file with %s changed is refused and says where, and nothing is adopted',
  async (_what, change, where) => {
    const host = directHost(openedConsole());
    const { id } = await heldEvening(host);
    const { text } = await answered<{ text: string }>(host.call('evenings.export', { id }));
    const tampered = change(text);
    expect(tampered).not.toBe(text);
    const other = directHost(openedConsole());
    const answer = await other.call('evenings.import', { text: tampered });
    if (answer.ok) throw new Error('expected it to be refused');
    expect(answer.problem.kind).toBe('bad-input');
    expect(answer.problem.says).toMatch(where);
    expect(await answered(other.call('evenings.list', {}))).toEqual([]);
  },
);

test('a log whose open evening was changed is opened for reading only, with the words', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const first = openedConsole({ log });
  await openEvening(directHost(first));
  await first.close();
  const { default: Sqlite } = await import('better-sqlite3');
  const database = new Sqlite(log);
  database.exec(
    "DROP TRIGGER events_never_change; UPDATE events SET json = replace(json, 'open-session', 'end-session')",
  );
  database.close();
  const host = directHost(openedConsole({ log }));
  expect(await answered(host.call('hello', {}))).toMatchObject({
    evening: null,
    log: { writable: false, says: expect.stringContaining('entry 1 was changed') },
  });
  expect(await host.call('settings.write', { theme: 'light' })).toMatchObject({
    problem: { kind: 'refused', says: expect.stringContaining('reading only') },
  });
});

test('settings that are stored wrong do not keep the console from starting', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const first = openedConsole({ log });
  await answered(first.host.call('settings.write', { theme: 'light' }));
  await first.close();
  const { default: Sqlite } = await import('better-sqlite3');
  const database = new Sqlite(log);
  database.exec(
    `UPDATE settings SET json = '{"theme":"light","deskMm":"far","fromTheFuture":1}' WHERE name = 'user'`,
  );
  database.close();
  const host = directHost(openedConsole({ log }));
  expect(await answered(host.call('hello', {}))).toMatchObject({ settings: { theme: 'light', deskMm: 700 } });
});

test('a file that is no log is refused by name, and left alone', () => {
  const log = join(temporaryFolder(), 'letter.txt');
  writeFileSync(log, 'Dear all, the next club night is on Friday.');
  expect(() => openedConsole({ log })).toThrow('expected a log of Cabward');
});

test('an old evening that was changed is not shown as if it were whole; the others are', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const first = openedConsole({ log });
  const { id, railroad } = await heldEvening(directHost(first));
  const other = await answered<{ id: string }>(first.host.call('evening.open', { railroad, alone: true }));
  await first.close();
  const { default: Sqlite } = await import('better-sqlite3');
  const database = new Sqlite(log);
  database.exec(
    "DROP TRIGGER events_never_change; UPDATE events SET json = replace(json, 'loose', 'tight') WHERE session = 1",
  );
  database.close();
  const host = directHost(openedConsole({ log }));
  const problem = { kind: 'fault', says: expect.stringContaining('entry 4 was changed') };
  expect(await host.call('evenings.read', { id })).toMatchObject({ ok: false, problem });
  expect(await host.call('evenings.export', { id })).toMatchObject({ ok: false, problem });
  expect((await host.call('evenings.read', { id: other.id })).ok).toBe(true);
});
