/** Reading an evening without reading all of it: outline, moments, marks, report and charts; a long one is gone through afterwards. */
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import type { EveningCharts } from '../../shared-model/logbook/charts/chart-data.ts';
import type { ReplyOf } from '../../shared-model/wire/contract.ts';
import type { Outline } from '../../shared-model/wire/evening-calls.ts';
import { answered, type HostUnderTest } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import { recordedLog } from '../support/recorded-log.ts';
import { addNotes, openedLog } from '../support/small-log.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** A host on a log with one evening of so many notes, one a second; every tenth is refused. */
function hostWithNotes(entries: number): { readonly host: HostUnderTest; readonly log: string } {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const writing = openedLog(log);
  addNotes(writing, entries, { size: 500 });
  writing.prepare("UPDATE sessions SET ended_at = '2026-11-25T22:00:00.000Z'").run();
  writing.close();
  return { host: directHost(openedConsole({ log })), log };
}

test('the outline has every entry and every mark in a bin, in order', async () => {
  const { host } = hostWithNotes(1005);
  const { bins } = await answered<Outline>(host.call('evenings.outline', { id: '1', bins: 100 }));
  expect(bins).toHaveLength(100);
  expect(bins.at(-1)).toMatchObject({ to: 1005, at: 1005 });
  expect(bins.every(({ to }, index) => to > (bins[index - 1]?.to ?? 0))).toBe(true);
  expect(bins.reduce((sum, { refusals }) => sum + refusals, 0)).toBe(100);
  expect(bins[0]).toEqual({ to: 10, at: 10, refusals: 1, alarms: 0 });
  expect(await answered(host.call('evenings.outline', { id: '1', bins: 1 }))).toEqual({
    bins: [{ to: 1005, at: 1005, refusals: 100, alarms: 0 }],
  });
});

test('an entry is found by its second; between two seconds it is the one before, and none is before the first', async () => {
  const { host } = hostWithNotes(300);
  const entryAt = (at: number) => answered(host.call('evenings.entryAt', { id: '1', at }));
  expect(await entryAt(0.5)).toEqual({ entry: 0 });
  expect(await entryAt(1)).toEqual({ entry: 1 });
  expect(await entryAt(217.9)).toEqual({ entry: 217 });
  expect(await entryAt(9999)).toEqual({ entry: 300 });
});

test('the next refusal is after an entry, the one before is before it; at the ends there is none', async () => {
  const { host } = hostWithNotes(30);
  const mark = (entry: number, direction: string) =>
    answered(host.call('evenings.markFrom', { id: '1', entry, direction }));
  expect(await mark(0, 'next')).toEqual({ entry: 10 });
  expect(await mark(10, 'next')).toEqual({ entry: 20 });
  expect(await mark(30, 'next')).toEqual({ entry: null });
  expect(await mark(30, 'before')).toEqual({ entry: 20 });
  expect(await mark(10, 'before')).toEqual({ entry: null });
});

test('a report is worked out once for each head, and tells how far it is on the way', async () => {
  const { host } = hostWithNotes(10_500);
  const report = await answered<ReplyOf<'evenings.report'>>(host.call('evenings.report', { id: '1' }));
  expect(report.figures).toMatchObject({ seconds: 10_500 });
  expect(report.sheet.unusual).toHaveLength(10_500 - 1050);
  expect(host.pushes.filter(({ push }) => push === 'evenings.progress').map(({ value }) => value)).toEqual([
    { id: '1', entries: 10_000, of: 10_500 },
  ]);
  expect(await answered(host.call('evenings.report', { id: '1' }))).toBe(report);
});

test('a report that is given up is answered as that', async () => {
  const { host } = hostWithNotes(3000);
  const report = host.call('evenings.report', { id: '1' });
  await host.call('evenings.giveUp', { id: '1' });
  expect(await report).toMatchObject({ ok: false, problem: { kind: 'refused' } });
});

test('a report that two screens want is given up when neither wants it any longer', async () => {
  const { host } = hostWithNotes(3000);
  const ask = () => host.call('evenings.report', { id: '1' });
  const [first, second] = [ask(), ask()];
  await host.call('evenings.giveUp', { id: '1' });
  expect(await first).toMatchObject({ ok: true });
  expect(await second).toEqual(await first);
});

test('a report that is asked for again after it was given up is worked out', async () => {
  const { host } = hostWithNotes(3000);
  const given = host.call('evenings.report', { id: '1' });
  await host.call('evenings.giveUp', { id: '1' });
  expect(await host.call('evenings.report', { id: '1' })).toMatchObject({ ok: true });
  expect(await given).toMatchObject({ ok: false });
});

test('working out a report goes through the evening as well: a changed one is no report, and says where', async () => {
  const { log } = hostWithNotes(300);
  const tampering = new Sqlite(log);
  tampering.exec('DROP TRIGGER events_never_change');
  tampering.exec(`UPDATE events SET json = replace(json, 'note 123', 'note 321') WHERE entry = 123`);
  tampering.close();
  const host = directHost(openedConsole({ log: await copied(log) }));
  expect(await host.call('evenings.report', { id: '1' })).toMatchObject({
    ok: false,
    problem: { says: expect.stringContaining('entry 123 was changed') },
  });
});

test('the charts of a part have what happened in it', async () => {
  const host = directHost(openedConsole({ log: recordedLog() }));
  const charts = (from: number, to: number) =>
    answered<EveningCharts>(host.call('evenings.charts', { id: '1', from, to }));
  const whole = await charts(0, 10_000);
  const middle = whole.range.to / 2;
  expect(whole.owned.length).toBeGreaterThan(0);
  const [first, second] = [await charts(0, middle), await charts(middle, 10_000)];
  expect([...first.throws, ...second.throws]).toEqual(whole.throws);
  expect([...first.marks, ...second.marks]).toEqual(whole.marks);
});

test('the charts of an evening with too many entries end where the most are reached, and say so by their range', async () => {
  const { host } = hostWithNotes(20_500);
  const charts = await answered<EveningCharts>(
    host.call('evenings.charts', { id: '1', from: 0, to: 20_500 }),
  );
  expect(charts.range).toEqual({ from: 0, to: 20_000 });
});

test('a long evening is shown unchecked and gone through when asked; one that was changed is found then', async () => {
  const { host, log } = hostWithNotes(20_500);
  const read = () => answered<ReplyOf<'evenings.read'>>(host.call('evenings.read', { id: '1' }));
  expect((await read()).checked).toBe(false);
  expect(await host.call('evenings.check', { id: '1' })).toEqual({ ok: true, value: {} });
  expect((await read()).checked).toBe(true);

  const tampering = new Sqlite(log);
  tampering.exec('DROP TRIGGER events_never_change');
  tampering.exec(`UPDATE events SET json = replace(json, 'note 12345', 'note 54321') WHERE entry = 12345`);
  tampering.close();
  const again = directHost(openedConsole({ log: await copied(log) }));
  const check = await again.call('evenings.check', { id: '1' });
  expect(check).toMatchObject({ ok: false, problem: { says: expect.stringContaining('entry 12345') } });
});

/** A log under another name, so that a second host may open it. */
async function copied(log: string): Promise<string> {
  const copy = join(temporaryFolder(), 'evenings.cabward');
  const from = new Sqlite(log, { readonly: true });
  await from.backup(copy);
  from.close();
  return copy;
}
