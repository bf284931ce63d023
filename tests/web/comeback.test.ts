/** An open page finds back to a console that was started anew at its address; nobody else is let in by it. */
import { chmodSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { comebackKeyOf } from '../../electron/web/comeback-key.ts';
import type { RunningServer } from '../../electron/web/serve.ts';
import { makeComeback } from '../../renderer/connection/comeback.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { cookieFor, openSocket, originOf, startedServer } from '../support/web-host.ts';

/** A browser at one address: it keeps the cookie that it was last given. */
function browserAt(origin: string) {
  const jar = { cookie: '' };
  const ask = async (address: string) => {
    const response = await fetch(`${origin}${address}`, {
      headers: { cookie: jar.cookie, 'sec-fetch-site': 'same-origin' },
    });
    jar.cookie = response.headers.get('set-cookie')?.split(';')[0] ?? jar.cookie;
    return response.ok ? response.json() : null;
  };
  return { jar, page: makeComeback(origin, ask) };
}

const isIn = (server: RunningServer, cookie: string): Promise<boolean> =>
  openSocket(server, { cookie, origin: originOf(server) }).then(
    () => true,
    () => false,
  );

/** A console, a page that is in, and the console started anew at the same address. */
async function startedAnew(log = join(temporaryFolder(), 'evenings.cabward')) {
  const first = await startedServer({ log });
  const { jar, page } = browserAt(originOf(first));
  jar.cookie = await cookieFor(first.freshAddress());
  await page.learn();
  await first.close();
  return { log, jar, page, server: await startedServer({ log, port: first.port }) };
}

test('a page that was in finds back by itself; its old cookie alone does not let it in', async () => {
  const { server, jar, page } = await startedAnew();
  expect(await isIn(server, jar.cookie)).toBe(false);
  await page.comeBack();
  expect(await isIn(server, jar.cookie)).toBe(true);
});

test('a page that was never in has no key, and is given none', async () => {
  const server = await startedServer();
  const { jar, page } = browserAt(originOf(server));
  await page.learn();
  await page.comeBack();
  expect(jar.cookie).toBe('');
  expect((await fetch(`${originOf(server)}/comeback/key`)).status).toBe(401);
});

test('once the key is another one, the page is turned away', async () => {
  const { log, server, jar, page } = await startedAnew();
  await server.close();
  writeFileSync(`${log}-comeback`, JSON.stringify({ key: 'ef'.repeat(32), made: Date.now() }));
  const again = await startedServer({ log, port: server.port });
  await page.comeBack();
  expect(await isIn(again, jar.cookie)).toBe(false);
});

test('a page whose key is turned away does not ask again', async () => {
  const asked: string[] = [];
  const page = makeComeback('http://127.0.0.1:4127', (address) => {
    asked.push(address.replace(/\?.*/, '?'));
    if (address === '/comeback/key') return Promise.resolve({ key: 'ab'.repeat(32) });
    return Promise.resolve(address === '/comeback' ? { challenge: 'cd'.repeat(32) } : null);
  });
  await page.learn();
  await page.comeBack();
  await page.comeBack();
  expect(asked).toEqual(['/comeback/key', '/comeback', '/comeback?']);
});

test('the key is for its owner alone, is the same at the next start, and another one after a week', () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  const key = comebackKeyOf(log, 1000);
  expect(key).toMatch(/^[0-9a-f]{64}$/);
  expect(statSync(`${log}-comeback`).mode & 0o777).toBe(0o600);
  expect(comebackKeyOf(log, 1000 + 6 * 86_400_000)).toBe(key);
  expect(comebackKeyOf(log, 1000 + 8 * 86_400_000)).not.toBe(key);
});

test('a file that holds no key is replaced, and its mode with it', () => {
  const log = join(temporaryFolder(), 'evenings.cabward');
  writeFileSync(`${log}-comeback`, 'nonsense');
  chmodSync(`${log}-comeback`, 0o644);
  const key = comebackKeyOf(log, 0);
  expect(JSON.parse(readFileSync(`${log}-comeback`, 'utf8'))).toEqual({ key, made: 0 });
  expect(statSync(`${log}-comeback`).mode & 0o777).toBe(0o600);
});
