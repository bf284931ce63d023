/** `cabward rehearse`: the design's example word for word, the shape of the answer, and what is said of a wrong script. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import expected from '../support/meet.expected.json' with { type: 'json' };
import passingSiding from '../support/passing-siding.railroad.json' with { type: 'json' };
import { cabward, cabwardJson, supportFile } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const RAILROAD = supportFile('passing-siding.railroad.json');
const MEET = supportFile('meet.script.jsonl');

interface Rehearsed {
  readonly entries: readonly {
    readonly at: number;
    readonly do: string;
    readonly outcome: string;
    readonly reasons: readonly {
      readonly code: string;
      readonly about: readonly string[];
      readonly says: string;
    }[];
    readonly authority?: string;
    readonly throws?: readonly {
      readonly kind: string;
      readonly id: string;
      readonly to: string;
      readonly block: string;
    }[];
  }[];
  readonly blocks: Readonly<Record<string, { state: string; cab: string | null; train: string | null }>>;
  readonly [rest: string]: unknown;
}

/** A script in a file of its own. */
function script(...lines: readonly (string | object)[]): string {
  const file = join(temporaryFolder(), 'evening.jsonl');
  writeFileSync(
    file,
    lines.map((line) => (typeof line === 'string' ? line : JSON.stringify(line))).join('\n'),
  );
  return file;
}

test('the example of the design gives exactly what the design expects', async () => {
  const rehearsed = await cabwardJson<Rehearsed>('rehearse', RAILROAD, MEET);
  const outcomes = rehearsed.entries.map(({ at, outcome, reasons }) => [
    at,
    outcome,
    // The design leaves out what a reason without things is about.
    ...reasons.flatMap(({ code, about }) => (about.length === 0 ? [code] : [code, about])),
  ]);
  expect(outcomes).toEqual(expected.outcomes);
  const granted = rehearsed.entries.find(({ at }) => at === 11);
  expect(granted?.throws?.map(({ kind, id, to, block }) => [kind, id, to, block])).toEqual(
    expected.throwsAt11,
  );
  expect(granted?.authority).toBe(expected.authorityAt11);
  const blocks = Object.entries(rehearsed.blocks).map(([id, { state, cab, train }]) => [
    id,
    [state, cab, train],
  ]);
  expect(Object.fromEntries(blocks)).toEqual(expected.blocks);
  expect(rehearsed.selectors).toEqual(expected.selectors);
});

test('the answer has every part of the contract, and an entry a line', async () => {
  const rehearsed = await cabwardJson<Rehearsed>('rehearse', RAILROAD, MEET);
  expect(Object.keys(rehearsed)).toEqual([
    'entries',
    'blocks',
    'turnouts',
    'selectors',
    'toggles',
    'trains',
    'authorities',
    'alarms',
    'asks',
  ]);
  expect(rehearsed.entries).toHaveLength(24);
  expect(rehearsed.entries[8]).toEqual({
    at: 8,
    do: 'request-move',
    outcome: 'refused',
    reasons: [{ code: 'block-occupied', about: ['B3', 't12'], says: expect.stringMatching(/\S/) }],
  });
  expect(rehearsed.turnouts).toEqual({
    T1: { position: 'normal', locked: false },
    T2: { position: 'normal', locked: true },
  });
  expect(rehearsed.trains).toEqual({
    t7: { blocks: ['B2'], cab: '1' },
    t12: { blocks: ['B2', 'B3'], cab: '2' },
  });
  expect(rehearsed.authorities).toEqual({ a1: { train: 't7', state: 'fulfilled', blocks: ['B2'] } });
  expect(rehearsed.alarms).toEqual([
    { code: 'entered-unauthorised', about: ['t12', 'B2'] },
    { code: 'bridging', about: ['g3'] },
  ]);
  expect(rehearsed.asks).toEqual([]);
});

test.each([
  [[{ at: 0, do: 'open-session' }], 0],
  [
    [
      { at: 0, do: 'open-session' },
      { at: 1, do: 'resume' },
    ],
    1,
  ],
  [
    [
      { at: 0, do: 'open-session' },
      { at: 1, do: 'breaker-tripped', supply: 'north' },
    ],
    1,
  ],
  [[], 0],
])('the script %j exits %i', async (lines, status) => {
  expect((await cabward('rehearse', RAILROAD, script(...lines), '--json')).status).toBe(status);
});

test('blank lines and remarks are passed over, and numbers count inputs alone', async () => {
  const file = script(
    '# before the evening',
    { at: 0, do: 'open-session' },
    '',
    { at: 1, do: 'assign-cab', cab: '1', person: 'Avery' },
    '   ',
    { at: 2, do: 'selector-stands-at', selector: 'K1', position: '2' },
    { at: 3, do: 'retract', entry: 3, why: 'misread' },
  );
  const rehearsed = await cabwardJson<Rehearsed>('rehearse', RAILROAD, file);
  expect(rehearsed.entries.map(({ outcome }) => outcome)).toEqual(['done', 'done', 'done', 'done']);
  expect(rehearsed.selectors).toMatchObject({ K1: 'off' });
});

test('a guest and a cut may be named once an earlier line brought them, and no sooner', async () => {
  const guest = { at: 1, do: 'add-train', train: 'g88', name: 'Guest', length: 900, amps: 2 };
  const placed = { at: 2, do: 'place-train', train: 'g88', edge: 'e1', toward: 'g1' };
  const open = { at: 0, do: 'open-session' };
  expect((await cabward('rehearse', RAILROAD, script(open, guest, placed))).status).toBe(0);
  const early = await cabward('rehearse', RAILROAD, script(open, { ...placed, at: 1 }, { ...guest, at: 2 }));
  expect(early).toMatchObject({
    status: 2,
    out: '',
    err: expect.stringContaining('line 2: $.train: expected'),
  });
});

test.each([
  ['an authority that was never granted', { do: 'acknowledge', authority: 'a9' }],
  ['a line that made no alarm', { do: 'alarm-seen', alarm: 1 }],
])('%s is refused by the rules, not by the reader', async (_what, input) => {
  const file = script({ at: 0, do: 'open-session' }, { at: 1, ...input });
  const rehearsed = await cabwardJson<Rehearsed>('rehearse', RAILROAD, file);
  expect(rehearsed.entries[1]).toMatchObject({ outcome: 'refused', reasons: [{ code: 'not-now' }] });
});

test.each([
  [{ do: 'retract', entry: 3, why: 'a' }, 'line 2: $.entry: expected the number of an earlier input'],
  [{ do: 'alarm-seen', alarm: 2 }, 'line 2: $.alarm: expected the number of an earlier input'],
  [{ do: 'turn-selector', selector: 'K1', position: '9' }, 'line 2: '],
])('%j is an input error before anything runs', async (input, says) => {
  const ran = await cabward(
    'rehearse',
    RAILROAD,
    script({ at: 0, do: 'open-session' }, { at: 1, ...input }),
    '--json',
  );
  expect(ran).toMatchObject({ status: 2, out: '' });
  expect(ran.err).toContain(says);
  expect(ran.err.trimEnd()).not.toContain('\n');
});

test.each([
  [
    'broken-reference',
    '$.blocks[0].source.selector: ',
    { blocks: [{ id: 'B1', name: 'West', source: { selector: 'K9' }, feeders: [] }] },
  ],
  [
    'broken-reference',
    '$.settings[0].turnouts.g1: ',
    { settings: [{ id: 's1', name: 'One', selectors: {}, turnouts: { g1: 'normal' }, toggles: {} }] },
  ],
  [
    'feed-loop',
    '$.toggles[0]: ',
    {
      toggles: [
        { id: 'H1', name: 'one' },
        { id: 'H2', name: 'two' },
      ],
      blocks: [
        { id: 'B1', name: 'West', source: { toggle: 'H1', from: 'B2' }, feeders: [{ edge: 'e1' }] },
        { id: 'B2', name: 'Main', source: { toggle: 'H2', from: 'B1' }, feeders: [{ edge: 'e3' }] },
        ...passingSiding.blocks.slice(2),
      ],
    },
  ],
])(
  'a railroad with %s cannot be run, and it is said where the file is wrong (%s) and what was expected',
  async (code, place, change) => {
    const file = join(temporaryFolder(), 'wrong.railroad.json');
    writeFileSync(file, JSON.stringify({ ...passingSiding, ...change }));
    const ran = await cabward('rehearse', file, MEET);
    expect(ran).toMatchObject({ status: 2, out: '' });
    expect(ran.err).toContain(`${place}${code}: `);
    expect(ran.err).toMatch(/; expected: [^\n]+\n$/);
  },
);
