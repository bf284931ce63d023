/** The console for a browser on this machine: the host behind a loopback address that only the one who started it knows. */
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { systemClock } from '../host/clock.ts';
import { type OpenConsole, type OpenConsoleOptions, openConsole } from '../host/open-console.ts';
import { type Admission, makeAdmission } from './admission.ts';
import { comebackKeyOf } from './comeback-key.ts';
import { serveRequests } from './http.ts';
import { readPageFiles } from './page-files.ts';
import { makeWireServer } from './wire-server.ts';

/** Where the console is served when no port is named; the next free one when another program has it. */
const USUAL_PORT = 4127;
const LONGEST_HEADERS_BYTES = 16 * 1024;

export interface ServeOptions extends Omit<OpenConsoleOptions, 'runtime'> {
  /** Port on 127.0.0.1; 0 for any free one. Where it is not named, the usual one, or any free one if that is taken. */
  readonly port?: number | undefined;
  /** The folder of the built page. */
  readonly page: string;
}

export interface RunningServer {
  readonly port: number;
  /** The address to open, with a token that is good for one use. */
  readonly address: string;
  /** A fresh address to open: a token of its own, and the ones before it no longer good. */
  freshAddress(): string;
  /** Path of the log. */
  readonly log: string;
  close(): Promise<void>;
}

export type ServerStarted =
  | { readonly kind: 'serving'; readonly server: RunningServer }
  | { readonly kind: 'already-running'; readonly address: string | null; readonly says: string }
  | { readonly kind: 'cannot'; readonly says: string };

type Listening = { readonly ok: true; readonly port: number } | { readonly ok: false; readonly code: string };

function listen(server: ReturnType<typeof createServer>, port: number): Promise<Listening> {
  return new Promise((resolve) => {
    const failed = (error: Error) => resolve({ ok: false, code: 'code' in error ? String(error.code) : '' });
    server.once('error', failed);
    server.listen({ host: '127.0.0.1', port }, () => {
      server.off('error', failed);
      resolve({ ok: true, port: (server.address() as AddressInfo).port });
    });
  });
}

/** Listens where asked; on the usual port, or if that is taken and none was asked for, on any. */
async function listenSomewhere(
  server: ReturnType<typeof createServer>,
  asked: number | undefined,
): Promise<Listening> {
  const first = await listen(server, asked ?? USUAL_PORT);
  return first.ok || asked !== undefined || first.code !== 'EADDRINUSE' ? first : listen(server, 0);
}

/** Puts a host behind an HTTP server; the address is announced beside the log, so that a second start finds it. */
async function serveConsole(opened: OpenConsole, options: ServeOptions): Promise<ServerStarted> {
  const files = readPageFiles(options.page);
  if (files === null)
    return {
      kind: 'cannot',
      says: `expected the built screens in ${options.page}; build them first: npm run build`,
    };
  const server = createServer({ maxHeaderSize: LONGEST_HEADERS_BYTES });
  const listening = await listenSomewhere(server, options.port);
  if (!listening.ok)
    return {
      kind: 'cannot',
      says: `expected a free port: port ${options.port ?? USUAL_PORT} cannot be had (${listening.code})`,
    };
  const { port } = listening;
  const clock = options.clock ?? systemClock;
  const admission: Admission = makeAdmission({
    port,
    now: clock.monotonic,
    comebackKey: comebackKeyOf(opened.log, clock.wall()),
  });
  const freshAddress = () => {
    const address = `${admission.origin}/?token=${admission.issueToken()}`;
    opened.announce(address);
    return address;
  };
  const wire = makeWireServer(opened.host, admission, clock.monotonic);
  server.on(
    'request',
    serveRequests(admission, files, () => void freshAddress()),
  );
  server.on('upgrade', wire.upgrade);
  server.on('clientError', (_error, socket) => socket.destroy());
  return {
    kind: 'serving',
    server: {
      port,
      address: freshAddress(),
      freshAddress,
      log: opened.log,
      close: async () => {
        wire.close();
        server.closeAllConnections();
        await new Promise<void>((resolve) => server.close(() => resolve()));
        await opened.close();
      },
    },
  };
}

/** Opens the log and serves the console on 127.0.0.1; finds the one that is running, if there is one. */
export async function startServer(options: ServeOptions): Promise<ServerStarted> {
  const { port: _port, page: _page, ...rest } = options;
  const opened = openConsole({ ...rest, runtime: 'node' });
  if (opened.kind === 'already-running')
    return { kind: 'already-running', address: opened.holder?.address ?? null, says: opened.says };
  if (opened.kind === 'cannot') return { kind: 'cannot', says: opened.problem.says };
  const served = await serveConsole(opened.console, options);
  if (served.kind !== 'serving') await opened.console.close();
  return served;
}
