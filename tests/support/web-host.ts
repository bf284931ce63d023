/** A host behind its loopback server, reached as the page reaches it: a cookie for a token, then one WebSocket. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { WebSocket } from 'ws';
import type { Push } from '../../electron/host/pushes.ts';
import { type RunningServer, type ServeOptions, startServer } from '../../electron/web/serve.ts';
import type { Answer } from '../../shared-model/wire/contract.ts';
import { hostFrame, WIRE_PATH } from '../../shared-model/wire/frames.ts';
import type { HostUnderTest } from './host-suite.ts';
import { temporaryFolder } from './temporary-folder.ts';

/** A page of two files, as a build would make it. */
export function smallPage(): string {
  const folder = join(temporaryFolder(), 'page');
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Cabward</title>');
  writeFileSync(join(folder, 'assets', 'index.js'), 'export {};');
  writeFileSync(join(folder, 'assets', 'secret.key'), 'not for the page');
  return folder;
}

export async function startedServer(options: Partial<ServeOptions> = {}): Promise<RunningServer> {
  const started = await startServer({
    version: '0.0.0',
    page: smallPage(),
    port: 0,
    log: join(temporaryFolder(), 'evenings.cabward'),
    ...options,
  });
  if (started.kind !== 'serving') throw new Error(started.says);
  let closed: Promise<void> | null = null;
  const close = () => {
    closed ??= started.server.close();
    return closed;
  };
  onTestFinished(close);
  return { ...started.server, close };
}

/** The cookie that a browser gets for the address that was printed. */
export async function cookieFor(address: string): Promise<string> {
  const response = await fetch(address, { redirect: 'manual' });
  return response.headers.get('set-cookie')?.split(';')[0] ?? '';
}

export function originOf({ port }: RunningServer): string {
  return `http://127.0.0.1:${port}`;
}

/** Opens the page's WebSocket; rejects with the status when it is turned away. */
export function openSocket(server: RunningServer, headers: Record<string, string>): Promise<WebSocket> {
  const socket = new WebSocket(`ws://127.0.0.1:${server.port}${WIRE_PATH}`, { headers });
  onTestFinished(() => socket.terminate());
  return new Promise((resolve, reject) => {
    socket.once('open', () => resolve(socket));
    socket.once('unexpected-response', (_request, response) => {
      socket.terminate();
      reject(new Error(`status ${response.statusCode}`));
    });
    socket.on('error', reject);
  });
}

/** The host behind a server, by one socket. */
export async function webHost(server: RunningServer): Promise<HostUnderTest> {
  const cookie = await cookieFor(server.freshAddress());
  const socket = await openSocket(server, { cookie, origin: originOf(server) });
  const pushes: Push[] = [];
  const waiting = new Map<number, (answer: Answer<unknown>) => void>();
  socket.on('message', (data) => {
    const frame = hostFrame.parse(JSON.parse(String(data)));
    if ('push' in frame) pushes.push(frame as Push);
    else waiting.get(frame.id)?.(frame.answer as Answer<unknown>);
  });
  let last = 0;
  return {
    pushes,
    call: (call, request) => {
      last += 1;
      const id = last;
      return new Promise((resolve) => {
        waiting.set(id, resolve);
        socket.send(JSON.stringify({ id, call, request }));
      });
    },
  };
}
