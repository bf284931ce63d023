/** The program: every wrong call or file is one line on standard error and status 2, never a stack trace. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { MAX_FILE_BYTES } from '../../electron/command-line/files.ts';
import { cabward, supportFile } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const RAILROAD = supportFile('passing-siding.railroad.json');

/** One line on standard error and nothing on standard output. */
async function refusedInOneLine(...args: readonly string[]): Promise<string> {
  const ran = await cabward(...args);
  expect(ran.status).toBe(2);
  expect(ran.out).toBe('');
  expect(ran.err).toMatch(/^[^\n]+\n$/);
  expect(ran.err).not.toMatch(/\bat .*:\d+:\d+/);
  return ran.err;
}

test.each([
  [[], 'expected: cabward SUB'],
  [['launch'], "unknown command 'launch'"],
  [['rehearse'], "missing required argument 'railroad'"],
  [['rehearse', RAILROAD], 'expected: cabward rehearse [options] <railroad> <script>'],
  [['rehearse', RAILROAD, RAILROAD, 'extra'], 'too many arguments'],
  [['phase', '--volts'], "unknown option '--volts'"],
  [['wire', '--awg'], "option '--awg <gauge>' argument missing"],
  [['serve', '--port', '99999'], '--port: expected'],
  [['replay', '1', '--at', 'soon'], '--at: expected seconds'],
  [['report', '1', '--format', 'scroll'], '--format: expected one of'],
])('the call %j is wrong, and it is said what was expected', async (args, says) => {
  expect(await refusedInOneLine(...args)).toContain(says);
});

test.each([
  ['a path that does not exist', () => '/no/such/railroad.json', 'there is none of that name'],
  ['a path through a file', () => `${RAILROAD}/x`, 'a part of the path is not a folder'],
  ['a folder', () => temporaryFolder(), 'it is a folder'],
  [
    'binary garbage',
    () => {
      const file = join(temporaryFolder(), 'garbage');
      writeFileSync(file, Buffer.from([0xff, 0xfe, 0x00, 0xd8, 0x99]));
      return file;
    },
    'expected text in UTF-8',
  ],
  [
    'an empty file',
    () => {
      const file = join(temporaryFolder(), 'empty');
      writeFileSync(file, '');
      return file;
    },
    'the text is empty',
  ],
  [
    'an oversize file',
    () => {
      const file = join(temporaryFolder(), 'large');
      writeFileSync(file, Buffer.alloc(MAX_FILE_BYTES + 1, 32));
      return file;
    },
    'expected at most',
  ],
  [
    'nesting beyond reason',
    () => {
      const file = join(temporaryFolder(), 'deep');
      writeFileSync(file, '['.repeat(100_000) + ']'.repeat(100_000));
      return file;
    },
    'expected',
  ],
])('%s is told in one line, as a railroad, as a script and as a log', async (_what, make, says) => {
  const file = make();
  expect(await refusedInOneLine('rehearse', file, supportFile('meet.script.jsonl'))).toContain(says);
  // An empty script is a script.
  if (says !== 'the text is empty') await refusedInOneLine('rehearse', RAILROAD, file);
  await refusedInOneLine('sessions', '--log', file);
  await refusedInOneLine('verify', '--log', file);
});

test('help and version are answers', async () => {
  expect(await cabward('--version')).toMatchObject({
    status: 0,
    out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/),
  });
  const help = await cabward('--help');
  for (const name of ['phase', 'wire', 'rehearse', 'demo', 'sessions', 'report', 'replay', 'verify', 'serve'])
    expect(help.out).toMatch(new RegExp(`^ +${name}\\b`, 'm'));
  expect(await cabward('rehearse', '--help')).toMatchObject({ status: 0, err: '' });
});

test('the program itself exits with the status and prints one JSON document', () => {
  const main = fileURLToPath(new URL('../../electron/command-line/main.ts', import.meta.url));
  const run = (...args: readonly string[]) =>
    spawnSync(process.execPath, [main, ...args], { encoding: 'utf8' });
  const rehearsed = run('rehearse', RAILROAD, supportFile('meet.script.jsonl'), '--json');
  expect(rehearsed.status).toBe(1);
  expect(rehearsed.stderr).toBe('');
  expect(JSON.parse(rehearsed.stdout)).toMatchObject({ entries: expect.any(Array) });
  expect(run('launch')).toMatchObject({ status: 2, stdout: '' });
});

test('a machine on which the console was never used has no evenings', async () => {
  const folder = join(temporaryFolder(), 'data');
  mkdirSync(folder);
  const before = process.env.CABWARD_DATA;
  process.env.CABWARD_DATA = folder;
  try {
    expect(await cabward('sessions')).toMatchObject({ status: 0, out: 'No evening was held yet.\n' });
    expect(await cabward('verify')).toMatchObject({
      status: 2,
      err: expect.stringContaining('there is no such file'),
    });
  } finally {
    if (before === undefined) delete process.env.CABWARD_DATA;
    else process.env.CABWARD_DATA = before;
  }
});
