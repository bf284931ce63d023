/** A browser for the tests: the one that is here, or Debian's Chromium where we may install it. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { findBrowser } from './find-browser.ts';

const NO_BROWSER =
  'No browser was found for the browser tests: install Chromium, Chrome or Edge (on Debian: apt-get install chromium fonts-dejavu-core), or name one in CABWARD_BROWSER, and run `npm test` again.';

const mayInstall = (): boolean =>
  process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');

function install(): void {
  console.log('No browser is here; installing Debian’s chromium and fonts-dejavu-core with apt-get …');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const apt = (...args: string[]) =>
    spawnSync('apt-get', args, { stdio: ['ignore', 'ignore', 'inherit'], env });
  apt('update', '-q');
  apt('install', '-y', '-q', '--no-install-recommends', 'chromium', 'fonts-dejavu-core');
}

export type Provided = { readonly browser: string } | { readonly browser: null; readonly says: string };

/** Path of a browser's program; or one sentence about what to do. */
export function provideBrowser(): Provided {
  if (findBrowser() === null && mayInstall()) install();
  const browser = findBrowser();
  return browser === null ? { browser, says: NO_BROWSER } : { browser };
}
