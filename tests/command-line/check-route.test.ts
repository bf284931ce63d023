/** `cabward check` and `cabward route`: the shape of their answers, and what they say of the design's passing siding. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { FINDING_CODES } from '../../shared-model/refusal.ts';
import passingSiding from '../support/passing-siding.railroad.json' with { type: 'json' };
import { cabward, supportFile } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const RAILROAD = supportFile('passing-siding.railroad.json');

/** The answer with `--json`, and the exit status. */
async function answered<Json>(...args: readonly string[]): Promise<{ status: number; json: Json }> {
  const { status, out } = await cabward(...args, '--json');
  return { status, json: JSON.parse(out) as Json };
}

/** The example with some of it exchanged, in a file of its own. */
function changed(change: Partial<Record<keyof typeof passingSiding, unknown>>): string {
  const file = join(temporaryFolder(), 'changed.railroad.json');
  writeFileSync(file, JSON.stringify({ ...passingSiding, ...change }));
  return file;
}

interface Checked {
  readonly findings: readonly {
    readonly code: string;
    readonly severity: string;
    readonly about: readonly string[];
    readonly says: string;
    readonly remedy: string;
  }[];
  readonly blocks: readonly unknown[];
}

describe('check', () => {
  test('gives every block its edges, its length and its gaps: the main is 300 + 2400 + 250 + 250 + 300 mm', async () => {
    const { status, json } = await answered<Checked>('check', RAILROAD);
    expect(status).toBe(0);
    expect(Object.keys(json)).toEqual(['findings', 'blocks']);
    expect(json.blocks).toEqual([
      { id: 'B1', edges: ['e1'], length: 1800, gaps: ['g1'] },
      { id: 'B2', edges: ['e2', 'e3', 'e4', 'e6', 'e7'], length: 3500, gaps: ['g1', 'g2', 'g3', 'g4'] },
      { id: 'B3', edges: ['e5'], length: 2000, gaps: ['g2', 'g3'] },
      { id: 'B4', edges: ['e8'], length: 1800, gaps: ['g4'] },
    ]);
  });

  test('every finding has a known code, a severity, what it is about, a sentence and a remedy', async () => {
    const { json } = await answered<Checked>('check', RAILROAD);
    expect(json.findings.length).toBeGreaterThan(0);
    for (const finding of json.findings) {
      expect(Object.keys(finding).sort()).toEqual(['about', 'code', 'remedy', 'says', 'severity']);
      expect(FINDING_CODES).toContain(finding.code);
      expect(finding.says).toMatch(/\.$/);
      expect(finding.remedy).toMatch(/\.$/);
    }
  });

  test('an error makes the status 1: a block without its feeder leaves dead track', async () => {
    const blocks = passingSiding.blocks.map((block) =>
      block.id === 'B3' ? { ...block, feeders: [] } : block,
    );
    const { status, json } = await answered<Checked>('check', changed({ blocks }));
    expect(status).toBe(1);
    expect(json.findings[0]).toMatchObject({ code: 'dead-track', severity: 'error', about: ['e5'] });
    expect(json.blocks[2]).toEqual({ id: 'B3', edges: [], length: 0, gaps: [] });
  });

  test('while a reference is broken, no block has an extent', async () => {
    const { status, json } = await answered<Checked>('check', changed({ selectors: [] }));
    expect(status).toBe(1);
    expect(new Set(json.findings.map((finding) => finding.code))).toEqual(new Set(['broken-reference']));
    expect(json.blocks).toEqual([]);
  });

  test('for a person it tells the findings, how many, and the blocks', async () => {
    const { out } = await cabward('check', RAILROAD);
    expect(out).toContain('info one-cab-block (B4)');
    expect(out).toContain('Found: 4 warnings, 4 for information.');
    expect(out).toContain('B2: 3500 mm; edges e2 e3 e4 e6 e7; gaps g1 g2 g3 g4');
  });
});

interface Routed {
  readonly routes: readonly {
    readonly edges: readonly string[];
    readonly blocks: readonly string[];
    readonly length: number;
    readonly turnouts: Readonly<Record<string, string>>;
    readonly selectors: Readonly<Record<string, string>>;
    readonly reversals: readonly unknown[];
  }[];
  readonly refusals: readonly {
    readonly code: string;
    readonly about: readonly string[];
    readonly says: string;
  }[];
}

const route = (...args: readonly string[]) => answered<Routed>('route', RAILROAD, ...args);
const WEST = ['--train-at', 'e1:g1'] as const;

describe('route', () => {
  test('tells edges, blocks, length and turnouts of the shortest way', async () => {
    expect(await route(...WEST, '--to', 'B4')).toEqual({
      status: 0,
      json: {
        routes: [
          {
            edges: ['e1', 'e2', 'e3', 'e7', 'e8'],
            blocks: ['B1', 'B2', 'B4'],
            length: 4800,
            turnouts: { T1: 'normal', T2: 'normal' },
            selectors: {},
            reversals: [],
          },
        ],
        refusals: [],
      },
    });
  });

  test('for a cab it tells how the selectors have to stand, and that nobody knows the phase across the last gap', async () => {
    const { status, json } = await route(...WEST, '--to', 'B4', '--cab', '2', '--alternatives', '3');
    expect(status).toBe(1);
    expect(json.routes.map(({ length, selectors }) => [length, selectors])).toEqual([
      [4800, { K1: '2', K2: '2' }],
      [4900, { K1: '2', K2: '2', K3: '2' }],
    ]);
    expect(json.refusals).toMatchObject([{ code: 'phase-unknown', about: ['g4', 'north', 'south'] }]);
  });

  test('a dial without the cab, and a throttle of the same supply, are refused by their codes', async () => {
    const third = await route(...WEST, '--to', 'B3', '--cab', '3');
    expect(third.json.refusals).toMatchObject([{ code: 'cab-not-wired', about: ['B3', '3'] }]);
    const blocks = passingSiding.blocks.map((block) =>
      block.id === 'B2' ? { ...block, source: { throttle: '2' } } : block,
    );
    const straight = await answered<Routed>(
      'route',
      changed({ blocks }),
      ...WEST,
      '--to',
      'B2',
      '--cab',
      '1',
    );
    expect(straight.json.refusals).toMatchObject([{ code: 'hand-off-needed', about: ['B2', '2'] }]);
    expect(straight.json.routes[0]?.selectors).toEqual({ K1: '1' });
  });

  test('a section behind a toggle needs the selector of the block that feeds it', async () => {
    const toggles = [{ id: 'H1', name: 'Hold' }];
    const blocks = passingSiding.blocks.map((block) =>
      block.id === 'B3' ? { ...block, source: { toggle: 'H1', from: 'B2' } } : block,
    );
    const { json } = await answered<Routed>(
      'route',
      changed({ blocks, toggles, selectors: passingSiding.selectors.filter(({ id }) => id !== 'K3') }),
      ...WEST,
      '--to',
      'B3',
      '--cab',
      '1',
    );
    expect(json.routes[0]?.selectors).toEqual({ K1: '1', K2: '1' });
    expect(json.refusals).toEqual([]);
  });

  test('blocks to avoid leave the way through the siding, or none', async () => {
    const none = await route(...WEST, '--to', 'B4', '--avoid', 'B2,B3');
    expect(none.status).toBe(1);
    expect(none.json).toMatchObject({ routes: [], refusals: [{ code: 'no-route', about: ['B4'] }] });
  });

  test('where only a reversal helps, the refusal says so, and asked for it is there', async () => {
    const none = await route(...WEST, '--to', 'B1');
    expect(none.json.refusals).toMatchObject([
      { code: 'no-route', says: expect.stringContaining('With a reversal') },
    ]);
    const { status, json } = await route(...WEST, '--to', 'B1', '--reversals', '1');
    expect(status).toBe(0);
    expect(json.routes[0]).toMatchObject({
      edges: ['e1', 'e2', 'e4', 'e2', 'e1'],
      length: 300 + 250 + 300 + 1800,
      reversals: [{ edge: 'e4', toward: 'g2' }],
    });
    const long = await route(...WEST, '--to', 'B1', '--reversals', '1', '--train-length', '251');
    expect(long.json.routes[0]?.reversals).toEqual([{ edge: 'e5', toward: 'g3' }]);
  });

  test.each([
    [['--to', 'B4'], '--train-at: expected EDGE:TOWARD'],
    [['--train-at', 'e1', '--to', 'B4'], '--train-at: expected EDGE:TOWARD'],
    [['--train-at', 'e1:g2', '--to', 'B4'], '--train-at: expected e1:n1 or e1:g1'],
    [[...WEST], '--to: expected a block'],
    [[...WEST, '--to', 'B9'], '--to: expected a block of the railroad, not "B9"'],
    [[...WEST, '--to', 'B4', '--cab', '9'], '--cab: expected a throttle'],
    [[...WEST, '--to', 'B4', '--avoid', 'B2,Q'], '--avoid: expected blocks'],
    [[...WEST, '--to', 'B4', '--reversals', '-1'], '--reversals: expected a whole number'],
    [[...WEST, '--to', 'B4', '--alternatives', '0'], '--alternatives: expected a whole number'],
  ])('the call %j is wrong in one line', async (args, says) => {
    const ran = await cabward('route', RAILROAD, ...args);
    expect(ran).toMatchObject({ status: 2, out: '' });
    expect(ran.err).toContain(says);
    expect(ran.err).toMatch(/^[^\n]+\n$/);
  });

  test('a railroad with broken references is an input error', async () => {
    const ran = await cabward('route', changed({ selectors: [] }), ...WEST, '--to', 'B4');
    expect(ran.status).toBe(2);
    expect(ran.err).toContain('broken-reference');
  });
});
