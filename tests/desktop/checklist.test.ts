/**
 * Electron's own security checklist, all 20 items (electronjs.org, Security: "Checklist: Security recommendations"), each held by something
 * that this test can read: options, handlers, headers, sources, fuses. What only a running Electron could show is named in docs/desktop.md.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { FuseV1Options } from '@electron/fuses';
import { expect, test } from 'vitest';
import { FUSES } from '../../build/fuses.ts';
import { isOwnPage } from '../../electron/desktop/calls.ts';
import { CONTENT_SECURITY_POLICY } from '../../electron/web/content-security.ts';
import {
  appEvents,
  argumentsOf,
  contentsDouble,
  exposed,
  handled,
  happenings,
  rendererEvents,
} from './electron-double.ts';
import { freshMachine, startedDesktop } from './support.ts';

type Answering = (request: Request) => Response;

/** The options with which the window was opened. */
async function windowOptions() {
  freshMachine();
  const window = await startedDesktop();
  return { window, preferences: window.options.webPreferences ?? {} };
}

async function policyOfPage(): Promise<string | null> {
  await windowOptions();
  const [, answer] = argumentsOf('protocol.handle') as [string, Answering];
  return answer(new Request('app://console/')).headers.get('Content-Security-Policy');
}

/** What becomes of an event of new contents. */
async function preventedEvent(event: string): Promise<boolean> {
  await windowOptions();
  const { contents, events } = contentsDouble();
  appEvents.happen('web-contents-created', contents);
  return events.happen(event, 'https://example.org/').prevented;
}

const sources = (folder: string): string =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$|\.html$/.test(entry.name))
    .map((entry) => readFileSync(`${entry.parentPath}/${entry.name}`, 'utf8'))
    .join('\n');

const CHECKLIST: Readonly<Record<string, () => unknown>> = {
  '1 only secure content is loaded': async () => {
    await windowOptions();
    expect(argumentsOf('window.loadURL')).toEqual(['app://console/']);
    expect(argumentsOf('protocol.registerSchemesAsPrivileged')).toEqual([
      [{ scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true } }],
    ]);
  },
  '2 no Node in the page': async () => {
    const { preferences } = await windowOptions();
    expect(preferences).toMatchObject({
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
    });
  },
  '3 the page is isolated from the preload': async () => {
    expect((await windowOptions()).preferences.contextIsolation).toBe(true);
  },
  '4 every process of a page is in the sandbox': async () => {
    expect((await windowOptions()).preferences.sandbox).toBe(true);
    const order = happenings.map(({ what }) => what);
    expect(order.indexOf('app.enableSandbox')).toBeGreaterThanOrEqual(0);
    expect(order.indexOf('app.enableSandbox')).toBeLessThan(order.indexOf('window.loadURL'));
  },
  '5 every request for a permission is denied': async () => {
    await windowOptions();
    const [request] = argumentsOf('session.setPermissionRequestHandler') as [
      (contents: unknown, permission: string, answer: (granted: boolean) => void) => void,
    ];
    const answers: boolean[] = [];
    for (const permission of ['media', 'notifications', 'geolocation', 'fullscreen', 'openExternal'])
      request(null, permission, (granted) => answers.push(granted));
    expect(answers).toEqual([false, false, false, false, false]);
    const [check] = argumentsOf('session.setPermissionCheckHandler') as [() => boolean];
    const [device] = argumentsOf('session.setDevicePermissionHandler') as [() => boolean];
    expect([check(), device()]).toEqual([false, false]);
  },
  '6 web security is on': async () => {
    expect((await windowOptions()).preferences.webSecurity).toBe(true);
  },
  '7 a content security policy goes with the page': async () => {
    const policy = await policyOfPage();
    expect(policy).toBe(CONTENT_SECURITY_POLICY);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
  },
  '8 no insecure content beside secure': async () => {
    expect((await windowOptions()).preferences.allowRunningInsecureContent).toBe(false);
  },
  '9 no experimental features': async () => {
    expect((await windowOptions()).preferences.experimentalFeatures).toBe(false);
  },
  '10 no Blink features are switched on': async () => {
    expect(Object.keys((await windowOptions()).preferences)).not.toContain('enableBlinkFeatures');
  },
  '11 no guest page may open windows, since there is none': async () => {
    expect((await windowOptions()).preferences.webviewTag).toBe(false);
    expect(sources('renderer')).not.toContain('<webview');
  },
  '12 no guest page is attached, whatever its options': async () => {
    expect(await preventedEvent('will-attach-webview')).toBe(true);
  },
  '13 the page stays where it is': async () => {
    expect(await preventedEvent('will-navigate')).toBe(true);
    expect(await preventedEvent('will-frame-navigate')).toBe(true);
    expect(await preventedEvent('will-redirect')).toBe(true);
  },
  '14 no other window is opened': async () => {
    await windowOptions();
    const [handler] = argumentsOf('contents.setWindowOpenHandler') as [(details: object) => object];
    expect(handler({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
    expect(handler({ url: 'app://console/' })).toEqual({ action: 'deny' });
  },
  '15 nothing is handed to the system to open': () => {
    expect(sources('electron')).not.toMatch(/openExternal|openPath/);
  },
  '16 Electron is no older than the one that this was written for': () => {
    const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8'));
    expect(Number.parseInt(packages['node_modules/electron'].version, 10)).toBeGreaterThanOrEqual(45);
  },
  '17 the sender of every call is looked at': async () => {
    await windowOptions();
    const top = { url: 'app://console/', parent: null };
    const strangers = [
      { senderFrame: null, sender: { mainFrame: top } },
      { senderFrame: { url: 'app://console/', parent: top }, sender: { mainFrame: top } },
      { senderFrame: { url: 'app://console/', parent: null }, sender: { mainFrame: top } },
      ...['https://example.org/', 'file:///etc/passwd', 'app://console.example.org/', 'about:blank', ''].map(
        (url) => {
          const frame = { url, parent: null };
          return { senderFrame: frame, sender: { mainFrame: frame } };
        },
      ),
    ];
    expect(handled.size).toBeGreaterThan(20);
    for (const [channel, answer] of handled)
      for (const stranger of strangers)
        expect([channel, await answer(stranger, {})]).toEqual([
          channel,
          { ok: false, problem: { kind: 'refused', says: 'expected a call from the console’s own page' } },
        ]);
    const own = { senderFrame: top, sender: { mainFrame: top } };
    expect(isOwnPage(own as unknown as Parameters<typeof isOwnPage>[0])).toBe(true);
  },
  '18 the page comes by a scheme of its own, never from file:': async () => {
    await windowOptions();
    expect(argumentsOf('protocol.handle')[0]).toBe('app');
    expect(sources('electron/desktop')).not.toMatch(/loadFile|file:\/\//);
  },
  '19 all nine fuses are set, and a tenth would not be passed over': () => {
    expect(FUSES.strictlyRequireAllFuses).toBe(true);
    const set = Object.values(FuseV1Options).filter((fuse) => typeof fuse === 'number');
    expect(Object.fromEntries(set.map((fuse) => [FuseV1Options[fuse], FUSES[fuse]]))).toEqual({
      RunAsNode: false,
      EnableCookieEncryption: true,
      EnableNodeOptionsEnvironmentVariable: false,
      EnableNodeCliInspectArguments: false,
      EnableEmbeddedAsarIntegrityValidation: true,
      OnlyLoadAppFromAsar: true,
      LoadBrowserProcessSpecificV8Snapshot: false,
      GrantFileProtocolExtraPrivileges: false,
      WasmTrapHandlers: true,
    });
  },
  '20 the page gets two functions and nothing of Electron': async () => {
    freshMachine();
    await import('../../electron/desktop/preload.ts');
    expect([...exposed.keys()]).toEqual(['cabward']);
    const bridge = exposed.get('cabward') as {
      call(name: string, request: unknown): Promise<unknown>;
      on(name: string, listener: (...told: unknown[]) => void): () => void;
    };
    expect(Object.keys(bridge)).toEqual(['call', 'on']);
    expect(await bridge.call('hello', {})).toEqual({ channel: 'cabward-call:hello', args: [{}] });
    const told: unknown[][] = [];
    const end = bridge.on('settings.changed', (...args) => told.push(args));
    rendererEvents.happen('cabward-push:settings.changed', { theme: 'dark' });
    expect(told).toEqual([[{ theme: 'dark' }]]);
    end();
    expect(argumentsOf('ipcRenderer.removeListener')[0]).toBe('cabward-push:settings.changed');
  },
};

test.each(Object.entries(CHECKLIST))('%s', async (_item, holds) => {
  await holds();
});

test('the list has all 20 items', () => {
  expect(Object.keys(CHECKLIST).map((item) => Number.parseInt(item, 10))).toEqual(
    Array.from({ length: 20 }, (_, index) => index + 1),
  );
});
