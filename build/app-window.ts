/** The console's window where there is no Electron: a browser without its own controls, with a profile of its own. */
import { type ChildProcess, spawn } from 'node:child_process';

/** As root, Chromium does not run inside its sandbox; the page it shows is our own. */
const asRoot = (): string[] => (process.getuid?.() === 0 ? ['--no-sandbox', '--test-type'] : []);

/**
 * Opens a window on an address of this machine.
 *
 * @param browser path of the browser's program
 * @param profile folder that keeps the window's place and size
 */
export function openAppWindow(browser: string, address: string, profile: string): ChildProcess {
  const flags = ['--no-first-run', '--no-default-browser-check', `--user-data-dir=${profile}`, ...asRoot()];
  return spawn(browser, [`--app=${address}`, ...flags], { stdio: 'ignore' });
}
