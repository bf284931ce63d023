/** Keeps two processes from building into the same folder at once. */
import { mkdirSync, rmSync, statSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** A lock older than this was left by a process that was killed. In milliseconds. */
const FORGOTTEN_MS = 120_000;
const LOOK_AGAIN_MS = 100;

const isTaken = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'EEXIST';

function dropIfForgotten(lock: string): void {
  const about = statSync(lock, { throwIfNoEntry: false });
  if (about !== undefined && Date.now() - about.mtimeMs > FORGOTTEN_MS)
    rmSync(lock, { recursive: true, force: true });
}

async function take(lock: string): Promise<void> {
  for (;;) {
    try {
      mkdirSync(lock);
      return;
    } catch (error) {
      if (!isTaken(error)) throw error;
      dropIfForgotten(lock);
      await wait(LOOK_AGAIN_MS);
    }
  }
}

/**
 * Does something while no other process does it under the same lock; waits for the other first.
 *
 * @param lock path of a folder that exists only meanwhile
 */
export async function oneAtATime<Value>(lock: string, act: () => Promise<Value>): Promise<Value> {
  await take(lock);
  try {
    return await act();
  } finally {
    rmSync(lock, { recursive: true, force: true });
  }
}
