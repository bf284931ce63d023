/**
 * `npm start`: builds what is stale, then opens the console, in Electron if there is one, else in a browser on this machine.
 * `--browser` passes Electron over; `--no-window` serves and opens nothing; `--port P` names the port.
 */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { dataFolder } from '../electron/host/data-folder.ts';
import { openAppWindow } from './app-window.ts';
import { buildStale } from './build-stale.ts';
import { electronRuntime } from './electron-runtime.ts';
import { findBrowser, hasDisplay } from './find-browser.ts';
import { root } from './fit-node.js';

/** An Electron that ends sooner than this, and badly, could not open its window on this machine. In milliseconds. */
const SOON_MS = 10_000;
const HIGHEST_PORT = 65_535;

const { values: options } = parseArgs({
  options: {
    browser: { type: 'boolean', default: false },
    'no-window': { type: 'boolean', default: false },
    port: { type: 'string' },
  },
});

const say = (line: string): void => console.log(line);
const canShow = hasDisplay(process.platform, process.env) && !options['no-window'];

/** Why Electron is not to be tried here; null when it may. */
function againstElectron(): string | null {
  if (options.browser || options['no-window']) return 'Electron passed over, as asked';
  if (!canShow) return 'No display here for a window';
  return process.getuid?.() === 0 ? 'Electron does not run as root with its sandbox on' : null;
}

/** Runs the console in Electron to its end. @returns false if it could not open */
async function ranInElectron(program: string): Promise<boolean> {
  const begun = performance.now();
  const child = spawn(program, [root], {
    stdio: 'inherit',
  });
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal));
  const status = await new Promise<number | null>((resolve) => {
    child.on('error', () => resolve(1));
    child.on('exit', (code) => resolve(code));
  });
  return status === 0 || status === null || performance.now() - begun > SOON_MS;
}

/** Opens the console in Electron if that can be; says why where it cannot. */
async function openedInElectron(): Promise<boolean> {
  const against = againstElectron();
  const runtime = against === null ? await electronRuntime(say) : { program: null, why: against };
  const opened = runtime.program !== null && (await ranInElectron(runtime.program));
  const why = runtime.program === null ? runtime.why : 'Electron could not open its window';
  if (!opened) say(`${why}: serving the console to a browser on this machine.`);
  return opened;
}

const inBrowser = (address: string): string =>
  `Open ${address}\nin a browser on this machine. The address is good for one use; \`npm start\` in another terminal gives a fresh one.`;

/** Opens a window on the address if this machine can show one; says what it did. @returns the way to close it */
function showWindow(address: string): () => void {
  const browser = canShow ? findBrowser() : null;
  if (browser === null) {
    say(inBrowser(address));
    return () => {};
  }
  say('Its window is opening. For another one run `npm start` in another terminal.');
  const window = openAppWindow(browser, address, join(dataFolder(), 'window'));
  const failed = (): void => say(`The window did not open. ${inBrowser(address)}`);
  window.on('error', failed);
  window.on('exit', (status) => (status === 0 || status === null ? undefined : failed()));
  return () => void window.kill();
}

/** Serves the console on this machine until it is told to end. */
async function serve(port: number | undefined): Promise<void> {
  // The bundle, so that what runs is what was built.
  const { startServer } = (await import(
    `${root}dist/web/serve.js`
  )) as typeof import('../electron/web/serve.ts');
  const { version } = (await import('../package.json', { with: { type: 'json' } })).default;
  const started = await startServer({ version, page: `${root}dist/renderer`, port });
  if (started.kind === 'cannot') {
    console.error(started.says);
    process.exitCode = 1;
    return;
  }
  if (started.kind === 'already-running') {
    say(started.says);
    if (started.address !== null && canShow) showWindow(started.address);
    return;
  }
  const { server } = started;
  say(`Cabward is running; its log is ${server.log}. Ctrl+C ends it.`);
  const closeWindow = showWindow(server.address);
  let ending = false;
  const end = (): void => {
    if (ending) return;
    ending = true;
    closeWindow();
    void server.close().then(() => {
      say('Cabward has ended; the log is closed.');
      process.exit(0);
    });
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, end);
}

/** Does all of it. */
async function start(): Promise<void> {
  const { port } = options;
  if (port !== undefined && !(/^\d{1,5}$/.test(port) && Number(port) <= HIGHEST_PORT)) {
    console.error(`--port: expected a number from 0 to ${HIGHEST_PORT}, not "${port}"`);
    process.exitCode = 1;
    return;
  }
  const built = await buildStale({ all: false });
  if (built.length > 0) say(`Built: ${built.join(', ')}.`);
  if (!(await openedInElectron())) await serve(port === undefined ? undefined : Number(port));
}

await start();
