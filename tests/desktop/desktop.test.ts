/** The console in Electron, from the start to the end, over the real host and a double of Electron. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { startDesktop } from '../../electron/desktop/desktop.ts';
import { openConsole } from '../../electron/host/open-console.ts';
import { appEvents, argumentsOf, given, handled, happenings, windows } from './electron-double.ts';
import { builtFiles, freshMachine, startedDesktop, untilExit } from './support.ts';

const occurred = (what: string): boolean => happenings.some((happening) => happening.what === what);
/** The page calling, as Electron would tell it. */
const ownPage = () => {
  const frame = { url: 'app://console/#/desk', parent: null };
  return { senderFrame: frame, sender: { mainFrame: frame } };
};
const call = (name: string, request: unknown) => handled.get(`cabward-call:${name}`)?.(ownPage(), request);

describe('a first start', () => {
  test('opens one window on the page, with the evening’s log in the data folder', async () => {
    const folder = freshMachine();
    await startedDesktop();
    expect(windows).toHaveLength(1);
    expect(argumentsOf('window.loadURL')).toEqual(['app://console/']);
    expect(existsSync(join(folder, 'evenings.cabward'))).toBe(true);
  });

  test('shows the window only when there is something to see', async () => {
    freshMachine();
    const window = await startedDesktop();
    expect(window.options.show).toBe(false);
    expect(occurred('window.show')).toBe(false);
    window.events.happen('ready-to-show');
    expect(occurred('window.show')).toBe(true);
  });

  test('answers the page’s calls from the host', async () => {
    freshMachine();
    await startedDesktop();
    expect(await call('hello', {})).toMatchObject({ ok: true, value: { runtime: 'electron' } });
    expect(await call('railroads.list', {})).toMatchObject({ ok: true, value: [{ demo: true }] });
  });

  test('answers a malformed request as data, with its place', async () => {
    freshMachine();
    await startedDesktop();
    expect(await call('railroads.read', { id: 7 })).toMatchObject({
      ok: false,
      problem: { kind: 'bad-input', path: '$.id' },
    });
  });

  test('tells the window what the host pushes', async () => {
    freshMachine();
    const window = await startedDesktop();
    await call('settings.write', { theme: 'light' });
    const told = window.sent.find(({ channel }) => channel === 'cabward-push:settings.changed');
    expect(told?.value).toMatchObject({ theme: 'light' });
  });
});

describe('the end', () => {
  test('closes the log before the program ends, so that the next start finds it free', async () => {
    freshMachine();
    await startedDesktop();
    expect(appEvents.happen('before-quit').prevented).toBe(true);
    await untilExit();
    expect(argumentsOf('app.exit')).toEqual([0]);
    const next = openConsole({ version: '0', runtime: 'node' });
    expect(next.kind).toBe('open');
    if (next.kind === 'open') await next.console.close();
  });

  test('comes when the window is closed', async () => {
    freshMachine();
    await startedDesktop();
    appEvents.happen('window-all-closed');
    expect(occurred('app.quit')).toBe(true);
  });

  test('keeps where the window was left', async () => {
    const folder = freshMachine();
    const window = await startedDesktop();
    window.events.happen('close');
    const kept = JSON.parse(readFileSync(join(folder, 'desktop', 'window.json'), 'utf8'));
    expect(kept).toMatchObject({ width: 1280, height: 800, maximized: false, fullScreen: false });
  });
});

describe('a second start', () => {
  test('ends at once where Electron says that another instance is there', async () => {
    const folder = freshMachine();
    given.isFirstInstance = false;
    await startDesktop(builtFiles());
    expect(occurred('app.quit')).toBe(true);
    expect(windows).toHaveLength(0);
    expect(existsSync(join(folder, 'evenings.cabward'))).toBe(false);
  });

  test('brings the window of the first to the front', async () => {
    freshMachine();
    await startedDesktop();
    appEvents.happen('second-instance');
    expect(occurred('window.restore')).toBe(true);
    expect(occurred('window.focus')).toBe(true);
  });

  test('says so where the console is already served to a browser', async () => {
    freshMachine();
    const served = openConsole({ version: '0', runtime: 'node' });
    await startDesktop(builtFiles());
    expect(argumentsOf('dialog.showErrorBox')[0]).toBe('Cabward is already running');
    expect(argumentsOf('app.exit')).toEqual([1]);
    expect(windows).toHaveLength(0);
    if (served.kind === 'open') await served.console.close();
  });
});

describe('what goes wrong', () => {
  test('a page that was not built is told with the command that builds it', async () => {
    freshMachine();
    const { preload } = builtFiles();
    await startDesktop({ page: '/nowhere/', preload });
    expect(String(argumentsOf('dialog.showErrorBox')[1])).toContain('npm run build');
    expect(argumentsOf('app.exit')).toEqual([1]);
  });

  test('a log that is something else is left as it is', async () => {
    const folder = freshMachine();
    const file = join(folder, 'evenings.cabward');
    writeFileSync(file, 'a shopping list, and long enough to have a head');
    await startDesktop(builtFiles());
    expect(argumentsOf('dialog.showErrorBox')[0]).toBe('The log cannot be opened');
    expect(readFileSync(file, 'utf8')).toContain('shopping');
  });

  test('a page whose process is gone is opened again; the evening is in the host', async () => {
    freshMachine();
    const window = await startedDesktop();
    window.contentsEvents.happen('render-process-gone', { reason: 'crashed', exitCode: 1 });
    expect(occurred('contents.reload')).toBe(true);
  });

  test('a page that ended as it should is not', async () => {
    freshMachine();
    const window = await startedDesktop();
    window.contentsEvents.happen('render-process-gone', { reason: 'clean-exit', exitCode: 0 });
    expect(occurred('contents.reload')).toBe(false);
  });
});
