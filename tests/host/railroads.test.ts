/** The library: versions never change, drafts may be broken and are never run, a wrong file touches nothing. */
import { expect, test } from 'vitest';
import type { RailroadCard } from '../../shared-model/wire/contract.ts';
import { answered, type HostUnderTest, item } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import passingSiding from '../support/passing-siding.railroad.json' with { type: 'json' };

const library = (host: HostUnderTest) => answered<RailroadCard[]>(host.call('railroads.list', {}));
const fresh = () => directHost(openedConsole());

test('the first start shows the demo railroad, ready to run; removed, it does not come back', async () => {
  const console_ = openedConsole();
  const host = directHost(console_);
  const [demo, ...others] = await library(host);
  expect(others).toEqual([]);
  expect(demo).toMatchObject({ demo: true, version: 1, hasDraft: false });
  await answered(host.call('evening.open', { railroad: demo?.id, alone: true }));
  await answered(host.call('evening.send', { items: [item({ do: 'end-session' })] }));
  await answered(host.call('railroads.remove', { id: demo?.id }));
  await console_.close();
  const again = directHost(openedConsole({ log: console_.log }));
  expect(await library(again)).toEqual([]);
  expect(await answered(again.call('evenings.list', {}))).toHaveLength(1);
});

test('a draft may be anything, is kept as it was sent, and is not run', async () => {
  const host = fresh();
  const broken = { name: 'half a railroad', nodes: 'later' };
  const card = await answered<RailroadCard>(
    host.call('railroads.saveDraft', { id: null, name: 'Mine', document: broken }),
  );
  expect(card).toMatchObject({ name: 'Mine', version: 0, hash: null, hasDraft: true });
  expect(await answered(host.call('railroads.read', { id: card.id }))).toEqual({
    id: card.id,
    document: broken,
    version: 0,
    isDraft: true,
  });
  expect(await host.call('railroads.publish', { id: card.id, note: '' })).toMatchObject({
    problem: { kind: 'refused', path: '$.format' },
  });
  expect(await host.call('evening.open', { railroad: card.id, alone: false })).toMatchObject({
    problem: { kind: 'refused', says: expect.stringContaining('draft') },
  });
});

test('publishing makes a version; the ones before stay as they were', async () => {
  const host = fresh();
  const { id } = await answered<RailroadCard>(
    host.call('railroads.import', { text: JSON.stringify(passingSiding), name: 'siding.railroad.json' }),
  );
  const longer = { ...passingSiding, name: 'Longer siding' };
  await answered(host.call('railroads.saveDraft', { id, name: longer.name, document: longer }));
  const card = await answered<RailroadCard>(host.call('railroads.publish', { id, note: 'longer' }));
  expect(card).toMatchObject({ name: 'Longer siding', version: 2, hasDraft: false });
  const versions = await answered<{ version: number; note: string }[]>(
    host.call('railroads.versions', { id }),
  );
  expect(versions.map(({ version, note }) => [version, note])).toEqual([
    [2, 'longer'],
    [1, 'imported from siding.railroad.json'],
  ]);
  const first = await answered<{ document: { name: string } }>(
    host.call('railroads.read', { id, version: 1 }),
  );
  expect(first.document.name).toBe('Passing siding');
});

test('a draft that is thrown away leaves the published version', async () => {
  const host = fresh();
  const text = JSON.stringify(passingSiding);
  const { id } = await answered<RailroadCard>(host.call('railroads.import', { text, name: 'a' }));
  await answered(host.call('railroads.saveDraft', { id, name: 'Other', document: {} }));
  await answered(host.call('railroads.discardDraft', { id }));
  expect(await answered(host.call('railroads.read', { id }))).toMatchObject({ version: 1, isDraft: false });
});

test('a railroad that cannot be run comes in as a draft, and is not published', async () => {
  const host = fresh();
  const loose = {
    ...passingSiding,
    blocks: [...passingSiding.blocks.slice(1), { ...passingSiding.blocks[0], source: { selector: 'K9' } }],
  };
  const card = await answered<RailroadCard>(
    host.call('railroads.import', { text: JSON.stringify(loose), name: 'loose' }),
  );
  expect(card).toMatchObject({ version: 0, hasDraft: true });
  expect(await host.call('railroads.publish', { id: card.id, note: '' })).toMatchObject({
    problem: { kind: 'refused', says: expect.stringContaining('K9') },
  });
});

test.each([
  ['no JSON', '{"format":', /line 1 column/],
  ['another format', '{"format":"other"}', /\$\.format/],
  ['a damaged one', JSON.stringify({ ...passingSiding, edges: [{ id: 'e1' }] }), /\$\.edges\[0\]/],
])('%s is refused with the place, and nothing stored is touched', async (_what, text, where) => {
  const host = fresh();
  const before = await library(host);
  const answer = await host.call('railroads.import', { text, name: 'wrong.json' });
  if (answer.ok) throw new Error('expected it to be refused');
  expect(answer.problem).toMatchObject({ kind: 'bad-input', says: expect.stringMatching(where) });
  expect(await library(host)).toEqual(before);
});

test('the live evening of a two-rail railroad is not offered, and it is said why', async () => {
  const host = fresh();
  const text = JSON.stringify({ ...passingSiding, system: 'two-rail-dc' });
  const { id } = await answered<RailroadCard>(host.call('railroads.import', { text, name: 'dc' }));
  expect(await host.call('evening.open', { railroad: id, alone: false })).toMatchObject({
    problem: { kind: 'refused', says: expect.stringContaining('polarity') },
  });
});

test.each(['railroads.read', 'railroads.versions', 'railroads.discardDraft', 'railroads.remove'])(
  '%s of a railroad that is not there is not found',
  async (name) => {
    const host = fresh();
    for (const id of ['99', 'x', '1; DROP TABLE railroads'])
      expect(await host.call(name, { id })).toMatchObject({ problem: { kind: 'not-found', path: '$.id' } });
  },
);
