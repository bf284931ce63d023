/**
 * A host that is killed at any moment loses nothing that it answered, and goes on where it was.
 * It is the process that dies here; that a commit outlasts a power cut rests on `synchronous = FULL`, which is read back elsewhere.
 * `CABWARD_CRASHES=1000` kills it so many times.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { openForReading } from '../../electron/host/log/open-log.ts';
import { openSessionRow } from '../../electron/host/log/sessions.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { verifyLog } from '../../electron/host/log/verify.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { chanceOf } from '../support/chance.ts';
import { answered } from '../support/host-suite.ts';
import { openedConsole } from '../support/open-host.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const CRASHES = Number(process.env.CABWARD_CRASHES ?? 25);
const child = fileURLToPath(new URL('../support/dispatching-child.ts', import.meta.url));

/** Lets the host dispatch, kills it so many milliseconds after its first answer, and returns the last entry that it answered. */
async function dispatchAndKill(log: string, milliseconds: number): Promise<number> {
  const host = spawn(process.execPath, [child, log], { stdio: ['ignore', 'pipe', 'inherit'] });
  let last = 0;
  const lines = createInterface({ input: host.stdout });
  lines.on('line', (line) => {
    last = Number(line);
  });
  const closed = once(lines, 'close');
  await Promise.race([once(lines, 'line'), closed]);
  setTimeout(() => host.kill('SIGKILL'), milliseconds);
  await Promise.all([once(host, 'exit'), closed]);
  return last;
}

test(`killed ${CRASHES} times, it lost nothing that it had answered`, async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const chance = chanceOf(1);
  let entries = 0;
  for (let crash = 0; crash < CRASHES; crash += 1) {
    const last = await dispatchAndKill(log, chance.between(5, 150));
    const opened = openForReading(log);
    if (!opened.ok) throw new Error(opened.problem.says);
    const row = openSessionRow(opened.log);
    expect(row?.entries).toBeGreaterThanOrEqual(last);
    expect(last).toBeGreaterThan(entries);
    // Each batch of three is there whole or not at all; entry 1 opened the session.
    expect(((row?.entries ?? 0) - 1) % 3).toBe(0);
    expect(verifyLog(opened.log)).toMatchObject({ good: true });
    entries = row?.entries ?? 0;
    opened.log.close();
  }
  console.log(`kill -9: ${CRASHES} times, ${entries} entries, none lost`);

  const resumed = openedConsole({ log });
  const live = await answered<{ state: SessionState; resumed: boolean; id: string; now: number }>(
    resumed.host.call('evening.read', {}),
  );
  expect(live.resumed).toBe(true);
  expect(live.now).toBeGreaterThanOrEqual(live.state.at);
  const reading = openForReading(log);
  if (!reading.ok) throw new Error(reading.problem.says);
  expect(live.state).toEqual(stateAt(reading.log, Number(live.id), entries, false));
  reading.log.close();
});
