/** The planner's worker behind the host: the suite without a transport, and how a thread ends. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { threadsFrom } from '../../electron/host/planner-jobs.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { answered } from '../support/host-suite.ts';
import { directHost, openedConsole } from '../support/open-host.ts';
import { plannerSuite } from '../support/planner-suite.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { THREE_TRAINS } from '../support/three-trains.ts';

plannerSuite('direct', async () => directHost(openedConsole()));

const JOB = {
  task: 'plan',
  document: demoRailroad,
  situation: THREE_TRAINS,
  options: { limitSeconds: 3600 },
};

/** A host whose planner is another program. */
function hostWith(program: string) {
  const file = join(temporaryFolder(), 'planner.mjs');
  writeFileSync(file, program);
  return directHost(openedConsole({ startPlanner: threadsFrom(pathToFileURL(file), 48) }));
}

test.each([
  ['throws', 'throw new Error("it broke");', 'it broke'],
  ['ends without a word', '', 'without an answer'],
  [
    'wants more memory than it may have',
    'const all = []; for (;;) all.push(new Array(100_000).fill(0.5));',
    'more memory than the 48 MB',
  ],
])('a thread that %s is an answer, and the host goes on', async (_, program, says) => {
  const host = hostWith(program);
  const { job } = await answered<{ job: number }>(host.call('plan.start', JOB));
  await expect
    .poll(() => host.pushes.find(({ push }) => push === 'plan.done')?.value, { timeout: 60_000 })
    .toEqual({ job, answer: { fault: expect.stringContaining(says) } });
  expect(await host.call('hello', {})).toMatchObject({ ok: true });
});

test('closing the host ends what is being worked on, without an answer', async () => {
  const console = openedConsole();
  const host = directHost(console);
  await answered(host.call('plan.start', JOB));
  await console.close();
  expect(host.pushes.filter(({ push }) => push === 'plan.done')).toEqual([]);
});
