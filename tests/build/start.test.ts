/** `npm start` as a person has it: it serves, says where, finds itself, and ends cleanly. */
import { type ChildProcess, spawn } from 'node:child_process';
import { expect, onTestFinished, test } from 'vitest';
import { temporaryFolder } from '../support/temporary-folder.ts';

interface Started {
  readonly process: ChildProcess;
  /** All that it said so far. */
  said(): string;
  /** Its exit status. */
  readonly ended: Promise<number | null>;
}

function start(data: string): Started {
  const child = spawn(process.execPath, ['build/run.js', 'start', '--no-window', '--port', '0'], {
    env: { ...process.env, CABWARD_DATA: data },
  });
  const parts: string[] = [];
  child.stdout.on('data', (part) => parts.push(String(part)));
  child.stderr.on('data', (part) => parts.push(String(part)));
  const ended = new Promise<number | null>((resolve) => child.on('exit', (status) => resolve(status)));
  onTestFinished(() => void child.kill('SIGKILL'));
  return { process: child, said: () => parts.join(''), ended };
}

/** The address that it says to open, once it has. */
async function addressOf({ said, process: child }: Started): Promise<string> {
  for (;;) {
    const address = /Open (http:\/\/\S+)/.exec(said())?.[1];
    if (address !== undefined) return address;
    if (child.exitCode !== null) throw new Error(`it ended before it served:\n${said()}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

test('the console is served to who has the address, found by a second start, and ended by Ctrl+C', async () => {
  const data = temporaryFolder();
  const first = start(data);
  const address = await addressOf(first);
  expect(new URL(address).hostname).toBe('127.0.0.1');

  const { origin } = new URL(address);
  expect((await fetch(origin)).status).toBe(401);
  const welcome = await fetch(address, { redirect: 'manual' });
  expect(welcome.status).toBe(303);
  const cookie = welcome.headers.get('set-cookie')?.split(';')[0] ?? '';
  const page = await fetch(origin, { headers: { cookie } });
  expect(await page.text()).toContain('<title>Cabward</title>');

  const second = start(data);
  expect(await second.ended).toBe(0);
  expect(second.said()).toContain('Cabward is already running');
  expect(second.said()).toContain(`${origin}/?token=`);

  first.process.kill('SIGINT');
  expect(await first.ended).toBe(0);
  expect(first.said()).toContain('the log is closed');
});

test('a port that is none is refused in words', async () => {
  const child = spawn(process.execPath, ['build/start.ts', '--no-window', '--port', 'seven'], {
    env: { ...process.env, CABWARD_DATA: temporaryFolder() },
  });
  const parts: string[] = [];
  child.stderr.on('data', (part) => parts.push(String(part)));
  const status = await new Promise((resolve) => child.on('exit', resolve));
  expect(status).toBe(1);
  expect(parts.join('')).toBe('--port: expected a number from 0 to 65535, not "seven"\n');
});
