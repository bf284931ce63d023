/** A host on a log of its own, closed when the test ends. */
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Clock } from '../../electron/host/clock.ts';
import { type OpenConsole, type OpenConsoleOptions, openConsole } from '../../electron/host/open-console.ts';
import type { Push } from '../../electron/host/pushes.ts';
import type { HostUnderTest } from './host-suite.ts';
import { temporaryFolder } from './temporary-folder.ts';

/** A clock that a test turns; it begins on the evening of the design's date. */
export function turnedClock(wall = Date.parse('2026-11-25T19:00:00.000Z')) {
  const now = { wall, monotonic: 0 };
  const clock: Clock = { wall: () => now.wall, monotonic: () => now.monotonic };
  const pass = (seconds: number) => {
    now.wall += seconds * 1000;
    now.monotonic += seconds * 1000;
  };
  return { clock, pass, now };
}

/** Opens the console; the log is in a folder of its own where none is named. */
export function openedConsole(options: Partial<OpenConsoleOptions> = {}): OpenConsole {
  const opened = openConsole({
    version: '0.0.0',
    runtime: 'node',
    log: join(temporaryFolder(), 'evenings.cabward'),
    warn: (says) => {
      throw new Error(says);
    },
    ...options,
  });
  if (opened.kind !== 'open') throw new Error(opened.kind === 'cannot' ? opened.problem.says : opened.says);
  let closed: Promise<void> | null = null;
  const close = () => {
    closed ??= opened.console.close();
    return closed;
  };
  onTestFinished(close);
  return { ...opened.console, close };
}

/** The host itself, without a transport. */
export function directHost(console: OpenConsole): HostUnderTest {
  const pushes: Push[] = [];
  console.host.subscribe((push) => pushes.push(push));
  return { call: console.host.call, pushes };
}
