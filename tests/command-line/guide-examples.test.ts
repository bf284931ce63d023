/** The guide to the command line: its examples, copied as they stand, do what it says, and no order or report is left out of it. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { OBSERVATION_VERBS, ORDER_VERBS } from '../../shared-model/session/input.ts';
import { cabward } from '../support/run-cabward.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const guide = readFileSync('docs/guide/command-line.md', 'utf8');
const blocks = [...guide.matchAll(/^```(\w*)\n(.*?)^```$/gms)].map(([, kind, text = '']) => ({ kind, text }));
const [situation, script] = blocks.filter(({ kind }) => kind === 'json').map(({ text }) => text);
const calls = blocks.flatMap(({ kind, text }) =>
  kind === '' ? text.split('\n').filter((line) => line.startsWith('npx cabward ')) : [],
);

describe('the guide to the command line', () => {
  it('has calls that run as they stand, with the files that it says to save: all are done, the script has a refusal', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'meet.json'), situation ?? '');
    writeFileSync(join(folder, 'meet.jsonl'), script ?? '');
    const statuses: Record<string, number> = {};
    for (const call of calls) {
      const [command = '', ...rest] = call.replace('npx cabward ', '').split(' ');
      const files = rest.map((word) => (word.startsWith('meet.') ? join(folder, word) : word));
      statuses[command] = (await cabward(command, ...files)).status;
    }
    expect(statuses).toEqual({ check: 0, capacity: 0, route: 0, safe: 0, plan: 0, rehearse: 1 });
  });

  it('names every order and every report that a script may have', () => {
    const named = new Set(
      guide
        .split('\n')
        .filter((line) => line.startsWith('| `'))
        .flatMap((line) => [...(line.split('|')[1] ?? '').matchAll(/`([\w-]+)`/g)].map(([, verb]) => verb)),
    );
    expect([...named].toSorted()).toEqual([...ORDER_VERBS, ...OBSERVATION_VERBS].toSorted());
  });

  it('goes on from what `check` prints: a block’s name, and the spots where a head may stop', async () => {
    const { out } = await cabward('check', 'shared-model/demo/line-with-siding.railroad.json');
    expect(out).toContain('B1: 2000 mm; edges e1; gaps g1; stops e1:n1 e1:g1; Ferry');
  });
});
