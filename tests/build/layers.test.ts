/** The layer check finds what it is there to find: each test plants one fault in a small house of its own. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { impureWords } from '../../build/impure-words.ts';
import { LAYER_RULES } from '../../build/layer-rules.ts';
import { wrongArrows } from '../../build/wrong-arrows.ts';

const HOUSE: Readonly<Record<string, string>> = {
  'shared-model/ids.ts': 'export const id = 1;',
  'shared-model/railroad/track.ts': "import { id } from '../ids.ts'; export const track = id;",
  'shared-model/power/phase.ts': "import { track } from '../railroad/track.ts'; export const phase = track;",
  'shared-model/session/fold.ts': "import { phase } from '../power/phase.ts'; export const fold = phase;",
  'shared-model/planning/plan.ts': "import { fold } from '../session/fold.ts'; export const plan = fold;",
  'shared-model/wire/contract.ts':
    "import { plan } from '../planning/plan.ts'; export const contract = plan;",
  'electron/host/log.ts':
    "import { contract } from '../../shared-model/wire/contract.ts'; export const log = contract;",
  'electron/web/serve.ts': "import { log } from '../host/log.ts'; export const serve = log;",
  'renderer/board/board.ts':
    "import { contract } from '../../shared-model/wire/contract.ts'; export const board = contract;",
};

let base = '';
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'cabward-layers-'));
});
afterEach(() => rmSync(base, { recursive: true, force: true }));

async function rulesBrokenBy(changes: Readonly<Record<string, string>>): Promise<string[]> {
  for (const [file, text] of Object.entries({ ...HOUSE, ...changes })) {
    mkdirSync(dirname(join(base, file)), { recursive: true });
    writeFileSync(join(base, file), text);
  }
  const wrong = await wrongArrows(base, LAYER_RULES);
  return [...new Set(wrong.map(({ rule }) => rule))].sort();
}

describe('the layer check', () => {
  test('passes a house whose arrows are right', async () => {
    expect(await rulesBrokenBy({})).toEqual([]);
  });

  test.each([
    [
      'shared-model looks at the host',
      'shared-model/ids.ts',
      '../electron/host/log.ts',
      'shared-model-looks-away',
    ],
    [
      'the screens look at the host',
      'renderer/board/x.ts',
      '../../electron/host/log.ts',
      'renderer-looks-away',
    ],
    [
      'the host looks at the screens',
      'electron/host/x.ts',
      '../../renderer/board/board.ts',
      'electron-looks-away',
    ],
    ['the host looks at a way in', 'electron/host/x.ts', '../web/serve.ts', 'host-looks-aside'],
    [
      'the railroad looks up at the session',
      'shared-model/railroad/x.ts',
      '../session/fold.ts',
      'railroad-looks-up',
    ],
    ['power looks up at planning', 'shared-model/power/x.ts', '../planning/plan.ts', 'power-looks-up'],
    [
      'the session looks up at the wire',
      'shared-model/session/x.ts',
      '../wire/contract.ts',
      'session-looks-up',
    ],
    [
      'planning looks up at the wire',
      'shared-model/planning/x.ts',
      '../wire/contract.ts',
      'planning-looks-up',
    ],
    ['the ground looks up at a layer', 'shared-model/x.ts', './railroad/track.ts', 'ground-looks-up'],
    ['shared-model uses Node', 'shared-model/power/x.ts', 'node:fs', 'model-is-pure'],
    ['the screens use Node', 'renderer/board/x.ts', 'node:path', 'screens-without-node'],
    ['an import leads nowhere', 'renderer/board/x.ts', './gone.ts', 'not-there'],
  ])('finds that %s', async (_what, file, target, broken) => {
    expect(
      await rulesBrokenBy({ [file]: `import * as other from '${target}'; export const x = other;` }),
    ).toContain(broken);
  });

  test('finds an arrow that carries a type alone', async () => {
    const typeOnly = "import type { fold } from '../session/fold.ts'; export type X = typeof fold;";
    expect(await rulesBrokenBy({ 'shared-model/railroad/x.ts': typeOnly })).toEqual(['railroad-looks-up']);
  });

  test('finds a circle inside one layer', async () => {
    const changes = {
      'shared-model/power/a.ts': "import { b } from './b.ts'; export const a = () => b;",
      'shared-model/power/b.ts': "import { a } from './a.ts'; export const b = () => a;",
    };
    expect(await rulesBrokenBy(changes)).toEqual(['circle']);
  });
});

describe('the search for clock and chance', () => {
  test.each([
    ['Date.now()', 'Date.now'],
    ['new Date()', 'new Date()'],
    ['Date()', 'Date()'],
    ['Math.random()', 'Math.random'],
    ['performance.now()', 'performance'],
    ['crypto.randomUUID()', 'crypto'],
    ['globalThis.Date', 'globalThis'],
    ["'a'.localeCompare('b')", 'localeCompare'],
    ['(5).toLocaleString()', 'toLocaleString'],
  ])('finds %s', (code, word) => {
    expect(impureWords('x.ts', `\nexport const x = ${code};`)).toEqual([{ file: 'x.ts', line: 2, word }]);
  });

  test.each([
    'new Date(1000)',
    'Math.max(1, 2)',
    '"Date.now()"',
    'evening.performance',
    '1 /* Math.random() */',
  ])('passes %s', (code) => {
    expect(impureWords('x.ts', `export const x = ${code};`)).toEqual([]);
  });
});
