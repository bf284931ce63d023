/** The console in a real browser: the built page, served by a host of its own over a log of its own. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright';
import { findBrowser } from '../../build/find-browser.ts';
import type { Clock } from '../../electron/host/clock.ts';
import { type RunningServer, startServer } from '../../electron/web/serve.ts';
import type { CallName, ReplyOf, RequestOf } from '../../shared-model/wire/contract.ts';
import { hostFrame, WIRE_PATH } from '../../shared-model/wire/frames.ts';

const BUILT_PAGE = fileURLToPath(new URL('../../dist/renderer', import.meta.url));
/** A step that waits longer than this for what it looks for has failed. */
const PATIENCE_MS = 30_000;
const ARGS = ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'];

export interface ConsolePage {
  readonly page: Page;
  /** What the page complained of in its console; a test expects none. */
  readonly complaints: readonly string[];
  /** Ends the host and starts another over the same log; the page opens by its address. */
  readonly restart: () => Promise<void>;
  /** The same at the same address, while the page stays open; `meanwhile` is done while no host is there. */
  readonly restartHere: (meanwhile: () => Promise<void>) => Promise<void>;
  readonly close: () => Promise<void>;
}

interface ConsolePageOptions {
  /** CSS pixels; a 24-inch screen of 1920 × 1080 unless said. */
  readonly width?: number;
  readonly height?: number;
  /** The host's clock. */
  readonly clock?: Clock;
  /** Puts evenings into the log before. */
  readonly prepare?: (log: string) => void;
}

async function openBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === null)
    throw new Error('no browser of the kind of Chromium was found on this machine');
  return chromium.launch({ executablePath, args: ARGS });
}

async function startOver(log: string, clock: Clock | undefined, port = 0): Promise<RunningServer> {
  const started = await startServer({
    version: '0.0.0',
    page: process.env.CABWARD_TEST_PAGE ?? BUILT_PAGE,
    port,
    log,
    clock,
  });
  if (started.kind !== 'serving') throw new Error(started.says);
  return started.server;
}

/** Opens the console as a person does, by the address that was printed. */
export async function openConsolePage({
  width = 1920,
  height = 1080,
  clock,
  prepare,
}: ConsolePageOptions = {}): Promise<ConsolePage> {
  const folder = mkdtempSync(join(tmpdir(), 'cabward-page-'));
  const log = join(folder, 'evenings.cabward');
  prepare?.(log);
  let server = await startOver(log, clock);
  const browser = await openBrowser();
  // axe wants a context of its own.
  const context = await browser.newContext({ viewport: { width, height } });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE_MS);
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(server.freshAddress());
  return {
    page,
    complaints,
    restart: async () => {
      // The page is away meanwhile: it would rightly complain of a host that is gone.
      await page.goto('about:blank');
      await server.close();
      server = await startOver(log, clock);
      await page.goto(server.freshAddress());
    },
    restartHere: async (meanwhile) => {
      const { port } = server;
      await server.close();
      await meanwhile();
      server = await startOver(log, clock, port);
      // It rightly complained of a host that was gone.
      complaints.length = 0;
    },
    close: async () => {
      await browser.close();
      await server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Goes to a screen by its address, as a link does. */
export async function goTo(page: Page, address: string): Promise<void> {
  await page.evaluate((hash) => {
    window.location.hash = hash;
  }, `#/${address}`);
}

/** Goes to a sheet of a railroad on the drawing board, and waits until it is that railroad that is drawn. */
export async function goToDrawing(page: Page, id: string, sheet: string): Promise<void> {
  await goTo(page, `drawing-board/${id}/${sheet}`);
  await page.locator(`[data-railroad="${id}"]`).waitFor();
}

/** Asks the host from the page, by a socket beside the console's own, as a second window would; throws on a problem. */
export async function askHost<Name extends CallName>(
  page: Page,
  call: Name,
  request: RequestOf<Name>,
): Promise<ReplyOf<Name>> {
  const asked = { path: WIRE_PATH, frame: JSON.stringify({ id: 1, call, request }) };
  const answer = await page.evaluate(
    ({ path, frame }) =>
      new Promise<string>((resolve, reject) => {
        const socket = new WebSocket(`ws://${window.location.host}${path}`);
        socket.onopen = () => socket.send(frame);
        socket.onerror = () => reject(new Error('the host cannot be reached'));
        socket.onmessage = ({ data }) => {
          const text = String(data);
          // Pushes have no id.
          if (!('id' in JSON.parse(text))) return;
          socket.close();
          resolve(text);
        };
      }),
    asked,
  );
  const frame = hostFrame.parse(JSON.parse(answer));
  if ('push' in frame || !frame.answer.ok) throw new Error(`${call} was not answered: ${answer}`);
  return frame.answer.value as ReplyOf<Name>;
}
