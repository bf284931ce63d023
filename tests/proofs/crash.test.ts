/**
 * A host that is killed at any moment loses nothing that it answered, and goes on where it was.
 * It is the process that dies here; that a commit outlasts a power cut rests on `synchronous = FULL`, which is read back elsewhere.
 * `CABWARD_CRASHES=1000` kills it so many times.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { openForReading, openForWriting } from '../../electron/host/log/open-log.ts';
import { openSessionRow } from '../../electron/host/log/sessions.ts';
import { stateAt } from '../../electron/host/log/state-at.ts';
import { verifyLog } from '../../electron/host/log/verify.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { type Chance, chanceOf } from '../support/chance.ts';
import { answered } from '../support/host-suite.ts';
import { openedConsole } from '../support/open-host.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const CRASHES = Number(process.env.CABWARD_CRASHES ?? 25);
const child = fileURLToPath(new URL('../support/dispatching-child.ts', import.meta.url));

/** So many crashes to a log: then a new one, since each start looks through the whole evening. */
const CRASHES_A_LOG = 25;

/** When to kill: so many milliseconds after the start (in mid-opening, mostly), or after the first answer. */
interface Killing {
  readonly after: 'start' | 'answer';
  readonly milliseconds: number;
}

/** Lets the host dispatch, kills it, and returns the last entry that it answered; 0 when it came to none. */
async function dispatchAndKill(log: string, { after, milliseconds }: Killing): Promise<number> {
  const host = spawn(process.execPath, [child, log], { stdio: ['ignore', 'pipe', 'inherit'] });
  let last = 0;
  const lines = createInterface({ input: host.stdout });
  lines.on('line', (line) => {
    last = Number(line);
  });
  const closed = once(lines, 'close');
  if (after === 'answer') await Promise.race([once(lines, 'line'), closed]);
  setTimeout(() => host.kill('SIGKILL'), milliseconds);
  await Promise.all([once(host, 'exit'), closed]);
  return last;
}

/** The entries of the open evening in a log that a killed host left; 0 while there is none. */
function entriesLeft(log: string): number {
  if (!existsSync(log)) return 0;
  const opened = openForWriting(log);
  if (!opened.ok || opened.damaged) throw new Error(opened.ok ? opened.says : opened.problem.says);
  const entries = openSessionRow(opened.log)?.entries ?? 0;
  expect(verifyLog(opened.log)).toMatchObject({ good: true });
  opened.log.close();
  return entries;
}

/** Goes on with the evening that a killed host left: it is where it was. */
async function expectResumed(log: string, entries: number): Promise<void> {
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
  await resumed.close();
}

async function crashOneLog(crashes: number, chance: Chance): Promise<number> {
  const log = join(temporaryFolder(), 'evenings.cabward');
  let entries = 0;
  for (let crash = 0; crash < crashes; crash += 1) {
    const killing: Killing = chance.inHundred(30)
      ? { after: 'start', milliseconds: chance.between(150, 500) }
      : { after: 'answer', milliseconds: chance.between(5, 150) };
    const last = await dispatchAndKill(log, killing);
    const left = entriesLeft(log);
    expect(left).toBeGreaterThanOrEqual(Math.max(last, entries));
    // Each batch of three is there whole or not at all; entry 1 opened the session.
    if (left > 0) expect((left - 1) % 3).toBe(0);
    entries = left;
  }
  await expectResumed(log, entries);
  return entries;
}

test(
  `killed ${CRASHES} times, it lost nothing that it had answered`,
  async () => {
    const chance = chanceOf(1);
    let entries = 0;
    for (let done = 0; done < CRASHES; done += CRASHES_A_LOG)
      entries += await crashOneLog(Math.min(CRASHES_A_LOG, CRASHES - done), chance);
    console.log(`kill -9: ${CRASHES} times, ${entries} entries, none lost`);
  },
  CRASHES * 10_000,
);
