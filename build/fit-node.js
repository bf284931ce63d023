/** Which Node to run with. Plain JavaScript, since an old Node has to be able to read it. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** The first Node that runs TypeScript files without a flag. */
const LEAST = { major: 22, minor: 18 };

const LOOK_FOR_PARENT_MS = 1000;

/** @param {string} version such as `v20.20.2` */
export function isFit(version) {
  const [major = 0, minor = 0] = version.replace(/^v/, '').split('.').map(Number);
  return major > LEAST.major || (major === LEAST.major && minor >= LEAST.minor);
}

/**
 * The Node to run Cabward with: this one if it is new enough, else the one that `npm ci` installs on Linux x64.
 * @returns {string | null} path of the program; null when there is none
 */
export function fitNode() {
  if (isFit(process.version)) return process.execPath;
  const installed = `${root}node_modules/.bin/node`;
  return existsSync(installed) ? installed : null;
}

/** What to tell a person whose Node is too old, in one sentence. */
export const TOO_OLD = `Cabward needs Node ${LEAST.major}.${LEAST.minor} or newer on this machine, and this is ${process.version}: install a newer one from your system or from nodejs.org, then run \`npm ci\` and this command again.`;

/**
 * Runs a program to its end with our standard streams, and hands on the signals that end it.
 * @param {string} program
 * @param {string[]} args
 * @param {boolean} [endWithParent] ends it when who started us is gone: npm that is killed tells its scripts nothing
 * @returns {Promise<number>} its exit status; 128 and the signal's number when a signal ended it
 */
export function runThrough(program, args, endWithParent = false) {
  const child = spawn(program, args, { stdio: 'inherit' });
  /** @type {NodeJS.Signals[]} */
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  for (const signal of signals) process.on(signal, () => child.kill(signal));
  const parent = process.ppid;
  const end = () => (process.ppid === parent ? undefined : child.kill('SIGTERM'));
  if (endWithParent) setInterval(end, LOOK_FOR_PARENT_MS).unref();
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', (status, signal) => resolve(status ?? (signal === 'SIGINT' ? 130 : 143)));
  });
}
