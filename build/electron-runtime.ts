/** Electron's runtime: not part of the package but fetched by its own installer, if it can be reached. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { root } from './fit-node.js';

const PACKAGE = `${root}node_modules/electron`;
/** Long enough to know that nobody answers, short enough to wait for. In milliseconds. */
const PROBE_MS = 4000;
/** About 120 MB; a line too slow for that in this time is better served by the browser. In milliseconds. */
const FETCH_MS = 150_000;

/** Path of Electron's program; null when its runtime is not there. */
export function installedElectron(): string | null {
  try {
    const program = `${PACKAGE}/dist/${readFileSync(`${PACKAGE}/path.txt`, 'utf8')}`;
    return existsSync(program) ? program : null;
  } catch {
    return null;
  }
}

async function answers(address: string): Promise<boolean> {
  try {
    await fetch(address, { method: 'HEAD', signal: AbortSignal.timeout(PROBE_MS) });
    return true;
  } catch {
    return false;
  }
}

export type Runtime = { readonly program: string } | { readonly program: null; readonly why: string };

/** Electron's program, fetched if need be; or why there is none, in words for the user. */
export async function electronRuntime(tell: (says: string) => void): Promise<Runtime> {
  const there = installedElectron();
  if (there !== null) return { program: there };
  const source = process.env.ELECTRON_MIRROR ?? 'https://github.com/electron/electron/releases/';
  if (!(await answers(source)))
    return {
      program: null,
      why: `Electron’s runtime is not here and ${new URL(source).host} cannot be reached`,
    };
  tell('Fetching Electron’s runtime, once (about 120 MB) …');
  const fetched = spawnSync(process.execPath, [`${PACKAGE}/install.js`], {
    stdio: 'ignore',
    timeout: FETCH_MS,
  });
  const program = installedElectron();
  if (fetched.status === 0 && program !== null) return { program };
  return { program: null, why: 'Electron’s runtime could not be fetched' };
}
