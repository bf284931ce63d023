/** One writer a log: a second start finds the first, and a crash leaves no lock behind. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { takeLock } from '../../electron/host/log/lock.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const lockModule = fileURLToPath(new URL('../../electron/host/log/lock.ts', import.meta.url));

test('a second start is told who has the log and where', () => {
  const file = join(temporaryFolder(), 'evenings.cabward');
  const first = takeLock(file, '2026-11-25T19:00:00.000Z', 4711);
  if (!first.ok) throw new Error('the first start was refused');
  first.lock.announce('http://127.0.0.1:4127/');
  expect(takeLock(file, 'later')).toEqual({
    ok: false,
    holder: { pid: 4711, since: '2026-11-25T19:00:00.000Z', address: 'http://127.0.0.1:4127/' },
  });
  first.lock.release();
  const third = takeLock(file, 'later');
  expect(third.ok).toBe(true);
  if (third.ok) third.lock.release();
  expect(existsSync(`${file}-running`)).toBe(false);
});

test('what a crashed process left is not believed', () => {
  const file = join(temporaryFolder(), 'evenings.cabward');
  writeFileSync(
    `${file}-running`,
    JSON.stringify({ pid: 1, since: 'long ago', address: 'http://127.0.0.1:1/' }),
  );
  const taken = takeLock(file, 'now');
  expect(taken.ok).toBe(true);
  if (taken.ok) taken.lock.release();
});

test('another process holds the lock until it is killed, and not after', async () => {
  const file = join(temporaryFolder(), 'evenings.cabward');
  const hold = `import(${JSON.stringify(lockModule)}).then((m) => { m.takeLock(${JSON.stringify(file)}, 'then'); console.log('held'); setInterval(() => undefined, 1000); })`;
  const child = spawn(process.execPath, ['-e', hold], { stdio: ['ignore', 'pipe', 'inherit'] });
  await once(child.stdout, 'data');
  expect(takeLock(file, 'now')).toMatchObject({ ok: false, holder: { pid: child.pid, since: 'then' } });
  child.kill('SIGKILL');
  await once(child, 'exit');
  const taken = takeLock(file, 'now');
  expect(taken.ok).toBe(true);
  if (taken.ok) taken.lock.release();
});
