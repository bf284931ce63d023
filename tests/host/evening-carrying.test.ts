/** An evening as one file: a long one goes out and comes in part by part, and whatever was changed on the way is found. */
import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { EveningCard } from '../../shared-model/wire/contract.ts';
import { answered } from '../support/host-suite.ts';
import { broughtIn, exported, logOfLongEvening } from '../support/long-evening.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import { recordedLog } from '../support/recorded-log.ts';

const hostOn = (log: string) => directHost(openedConsole({ log }));

/** The long evening as its own installation has it; made once, since it takes a while. */
let made: Promise<{ parts: readonly string[]; card: EveningCard | undefined; report: unknown }> | null = null;
const longEvening = () => {
  made ??= (async () => {
    const host = hostOn(logOfLongEvening());
    const [card] = await answered<EveningCard[]>(host.call('evenings.list', {}));
    const report = await answered(host.call('evenings.report', { id: '1' }));
    return { parts: await exported(host, '1'), card, report };
  })();
  return made;
};

test('a long evening goes out in parts, comes in in others, is sound there, and has the same figures and the same file', async () => {
  const { parts, card: own, report } = await longEvening();
  expect(parts.length).toBeGreaterThan(1);
  const text = parts.join('');
  const other = directHost(openedConsole());
  const card = await answered<EveningCard>(broughtIn(other, text, 999_999));
  expect({ ...card, id: '' }).toEqual({ ...own, id: '' });
  expect(await answered(other.call('log.verify', {}))).toMatchObject({ good: true });
  expect(await answered(other.call('evenings.report', { id: card.id }))).toEqual(report);
  expect((await exported(other, card.id)).join('')).toBe(text);
  expect(other.pushes.filter(({ push }) => push === 'evenings.progress').at(-1)?.value).toMatchObject({
    id: 'f',
    of: 4803,
  });
});

test('a long evening with one word changed deep in it is refused, says where, and nothing is adopted', async () => {
  const text = (await longEvening()).parts.join('');
  const other = directHost(openedConsole());
  const tampered = text.replace('"text":"1500 ', '"text":"1501 ');
  expect(await broughtIn(other, tampered, 1_000_000)).toMatchObject({
    ok: false,
    problem: { kind: 'bad-input', says: expect.stringMatching(/^\$\.entries\[1501\]: expected the entry/) },
  });
  expect(await answered(other.call('evenings.list', {}))).toEqual([]);
});

test('parts that do not follow on, and an import of parts that are not there, are refused', async () => {
  const host = directHost(openedConsole());
  await answered(host.call('evenings.importPart', { file: 'a', at: 0, text: '{' }));
  const later = await host.call('evenings.importPart', { file: 'a', at: 7, text: '}' });
  expect(later).toMatchObject({ ok: false, problem: { path: '$.at' } });
  expect(await host.call('evenings.importPart', { file: 'b', at: 7, text: '}' })).toMatchObject({
    ok: false,
  });
  await answered(host.call('evenings.giveUp', { id: 'a' }));
  expect(await host.call('evenings.import', { file: 'a', text: '}' })).toMatchObject({
    ok: false,
    problem: { says: expect.stringContaining('Begin again') },
  });
});

test('bringing in can be given up while it is judged, and leaves nothing', async () => {
  const text = (await longEvening()).parts.join('');
  const other = directHost(openedConsole());
  const coming = broughtIn(other, text, 4_000_000);
  await expect.poll(() => other.pushes.some(({ push }) => push === 'evenings.progress')).toBe(true);
  await answered(other.call('evenings.giveUp', { id: 'f' }));
  expect(await coming).toMatchObject({ ok: false, problem: { says: 'This was given up.' } });
  expect(await answered(other.call('evenings.list', {}))).toEqual([]);
});

test('an evening of more entries than can be brought in is not written as a file either, and says what has it', async () => {
  const log = recordedLog();
  const growing = new Sqlite(log);
  growing.exec('UPDATE sessions SET entries = 100001');
  growing.close();
  expect(await hostOn(log).call('evenings.export', { id: '1' })).toMatchObject({
    ok: false,
    problem: { kind: 'refused', says: expect.stringMatching(/100,001 entries; at most 100,000 .* backup/) },
  });
});

test('whatever single character of a file is changed, it is refused with a place', async () => {
  const text = (await exported(hostOn(recordedLog()), '1')).join('');
  const other = directHost(openedConsole());
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 0, max: text.length - 1 }),
      fc.constantFrom('0', '7', 'a', 'B', ' ', '"', ',', '}', '['),
      async (at, instead) => {
        const changed = `${text.slice(0, at)}${instead}${text.slice(at + 1)}`;
        fc.pre(changed !== text);
        const answer = await other.call('evenings.import', { text: changed });
        expect(answer).toMatchObject({ ok: false, problem: { kind: 'bad-input' } });
        if (!answer.ok) expect(answer.problem.says).toMatch(/^(\$|line 1 column \d+)/);
      },
    ),
    { seed: 5, numRuns: 150 },
  );
  expect(await answered(other.call('evenings.list', {}))).toEqual([]);
});
