/** The loopback server turns away whom it should, bounds what it takes, and gives nothing but the page. */
import { once } from 'node:events';
import { request } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { MOST_CALLS_A_SECOND } from '../../electron/host/call-rate.ts';
import { CONTENT_SECURITY_POLICY } from '../../electron/web/content-security.ts';
import { type RunningServer, startServer } from '../../electron/web/serve.ts';
import { LONGEST_FRAME_BYTES } from '../../shared-model/wire/frames.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { cookieFor, openSocket, originOf, smallPage, startedServer, webHost } from '../support/web-host.ts';

interface Reply {
  readonly status: number | undefined;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly body: string;
}

/** A request with exactly these headers; `fetch` would set some by itself. */
function ask(
  server: RunningServer,
  path: string,
  headers: Record<string, string> = {},
  method = 'GET',
): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port: server.port, path, method, headers }, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (part: string) => {
        body += part;
      });
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, body }));
    });
    asked.on('error', reject);
    asked.end();
  });
}

test('the printed address lets in once, and the cookie it gives is for this page alone', async () => {
  const server = await startedServer();
  const { pathname, search } = new URL(server.address);
  const first = await ask(server, `${pathname}${search}`);
  expect(first.status).toBe(303);
  expect(String(first.headers['set-cookie'])).toMatch(/; HttpOnly; SameSite=Strict$/);
  expect((await ask(server, `${pathname}${search}`)).status).toBe(401);
  const cookie = String(first.headers['set-cookie']).split(';')[0] ?? '';
  const page = await ask(server, '/', { cookie });
  expect(page).toMatchObject({ status: 200, body: '<!doctype html><title>Cabward</title>' });
  // The address opened again in the browser that is in already only leads to the page.
  expect((await ask(server, `${pathname}${search}`, { cookie })).status).toBe(303);
});

test('every answer carries the headers that keep the page to itself', async () => {
  const server = await startedServer();
  const cookie = await cookieFor(server.address);
  for (const reply of [
    await ask(server, '/', { cookie }),
    await ask(server, '/'),
    await ask(server, '/nope', { cookie }),
  ])
    expect(reply.headers).toMatchObject({
      'content-security-policy': CONTENT_SECURITY_POLICY,
      'x-content-type-options': 'nosniff',
      'cache-control': 'no-store',
      'referrer-policy': 'no-referrer',
      'cross-origin-resource-policy': 'same-origin',
    });
});

test.each([
  ['no cookie', '/', {}, 'GET', 401],
  ['a cookie of somebody else', '/', { cookie: 'cabward=1' }, 'GET', 401],
  ['another host', '/', { host: 'localhost' }, 'GET', 421],
  ['another site', '/', { origin: 'https://evil.example' }, 'GET', 421],
  ['a page of another site that asks', '/', { 'sec-fetch-site': 'cross-site' }, 'GET', 421],
  ['a wrong token', '/?token=guess', {}, 'GET', 401],
  ['another method', '/', {}, 'POST', 405],
])('%s is turned away', async (_what, path, headers, method, status) => {
  const server = await startedServer();
  const reply = await ask(server, path, headers as Record<string, string>, method);
  expect(reply.status).toBe(status);
  expect(reply.body).not.toContain('<title>');
});

test.each([
  '/assets/secret.key',
  '/../package.json',
  '/..%2f..%2fpackage.json',
  '/%00',
  '//etc/passwd',
  '/assets',
])('the path %s is no file of the page', async (path) => {
  const server = await startedServer();
  const cookie = await cookieFor(server.address);
  expect((await ask(server, path, { cookie })).status).toBe(404);
});

test('an oversize header, or what is no HTTP at all, does not disturb it', async () => {
  const server = await startedServer();
  const cookie = await cookieFor(server.address);
  await ask(server, '/', { cookie, padding: 'x'.repeat(100_000) }).catch(() => undefined);
  const socket = connect(server.port, '127.0.0.1');
  socket.on('error', () => undefined);
  socket.write(Buffer.from([0, 255, 22, 3, 1]));
  socket.write('\r\n\r\n');
  await once(socket, 'close');
  expect((await ask(server, '/', { cookie })).status).toBe(200);
});

test.each([
  [
    'no Origin',
    (server: RunningServer, cookie: string) => ({ cookie, host: `127.0.0.1:${server.port}` }),
    403,
  ],
  [
    'another Origin',
    (_server: RunningServer, cookie: string) => ({ cookie, origin: 'http://evil.example' }),
    421,
  ],
  [
    'another Host',
    (server: RunningServer, cookie: string) => ({ cookie, origin: originOf(server), host: 'evil.example' }),
    421,
  ],
  ['no cookie', (server: RunningServer) => ({ origin: originOf(server) }), 401],
])('a WebSocket with %s is turned away', async (_what, headers, status) => {
  const server = await startedServer();
  const cookie = await cookieFor(server.address);
  await expect(openSocket(server, headers(server, cookie))).rejects.toThrow(`status ${status}`);
});

test.each([
  ['no JSON', 'hello', 1003],
  ['no call', '{"id":0,"call":"hello","request":{}}', 1003],
  ['binary', Buffer.from('{}'), 1003],
  ['oversize', 'x'.repeat(LONGEST_FRAME_BYTES + 1), 1009],
])('a frame that is %s ends the connection, and no other', async (_what, frame, code) => {
  const server = await startedServer();
  const cookie = await cookieFor(server.address);
  const headers = { cookie, origin: originOf(server) };
  const [bad, other] = [await openSocket(server, headers), await openSocket(server, headers)];
  bad.send(frame);
  const [closed] = (await once(bad, 'close')) as [number];
  expect(closed).toBe(code);
  other.send('{"id":1,"call":"hello","request":{}}');
  const [data] = (await once(other, 'message')) as [Buffer];
  expect(JSON.parse(String(data))).toMatchObject({ id: 1, answer: { ok: true } });
});

test('a second start finds the first one, and its address still opens the page', async () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const server = await startedServer({ log });
  await cookieFor(server.address);
  const second = await startServer({ version: '0.0.0', page: smallPage(), port: 0, log });
  if (second.kind !== 'already-running') throw new Error('expected the first one to be found');
  expect(second.says).toContain(`already running on ${server.log}`);
  expect(second.says).toContain(`process ${process.pid}`);
  expect(await cookieFor(second.address ?? '')).toMatch(/^cabward-\d+=[0-9a-f]{64}$/);
  await server.close();
  const third = await startedServer({ log });
  expect(third.port).toBeGreaterThan(0);
});

test('a port that is taken, and screens that are not built, are told', async () => {
  const server = await startedServer();
  const options = { version: '0.0.0', page: smallPage(), log: join(temporaryFolder(), 'evenings.cabward') };
  expect(await startServer({ ...options, port: server.port })).toMatchObject({
    kind: 'cannot',
    says: expect.stringContaining('EADDRINUSE'),
  });
  expect(await startServer({ ...options, port: 0, page: temporaryFolder() })).toMatchObject({
    kind: 'cannot',
    says: expect.stringContaining('build them first'),
  });
});

test('it listens on loopback alone', async () => {
  const server = await startedServer();
  expect(server.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?token=[0-9a-f]{64}$/);
});

test('a page that calls without end is told so, and the host goes on', async () => {
  const server = await startedServer({ clock: { wall: Date.now, monotonic: () => 0 } });
  const host = await webHost(server);
  const answers = await Promise.all(
    Array.from({ length: MOST_CALLS_A_SECOND + 5 }, () => host.call('evening.read', {})),
  );
  expect(answers.filter(({ ok }) => !ok)).toHaveLength(5);
  expect((await host.call('hello', {})).ok).toBe(true);
});
