/** The menus, printing, and the bound on calls. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, test } from 'vitest';
import { menuTemplate } from '../../electron/desktop/menu.ts';
import { savePdf } from '../../electron/desktop/print.ts';
import { callRate } from '../../electron/host/call-rate.ts';
import { SCREENS } from '../../renderer/shell/screens.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { argumentsOf, BrowserWindow, given, happenings } from './electron-double.ts';
import { freshMachine, startedDesktop } from './support.ts';

const NOTHING = { print: () => {}, savePdf: () => {}, showLog: () => {}, goTo: () => {}, about: () => {} };

function itemsOf(template: readonly MenuItemConstructorOptions[]): MenuItemConstructorOptions[] {
  return template.flatMap((item) => [item, ...(Array.isArray(item.submenu) ? itemsOf(item.submenu) : [])]);
}

/** Presses an item of the menu that the console has set. */
async function choose(label: string): Promise<void> {
  const [template] = argumentsOf('Menu.setApplicationMenu') as [MenuItemConstructorOptions[]];
  const item = itemsOf(template).find((one) => one.label === label);
  if (item?.click === undefined) throw new Error(`no ${label} in the menu`);
  (item.click as () => void)();
}

describe('the menus', () => {
  test('take no printable key and no function key: those belong to the desk', () => {
    const keys = itemsOf(menuTemplate(NOTHING, 'linux', false)).flatMap(
      ({ accelerator }) => accelerator ?? [],
    );
    expect(keys.length).toBeGreaterThan(0);
    for (const key of keys) expect(key).toMatch(/^CmdOrCtrl\+/);
  });

  test('have the menu of the program on macOS alone', () => {
    const roles = (platform: NodeJS.Platform) =>
      menuTemplate(NOTHING, platform, true).map(({ role }) => role);
    expect(roles('darwin')).toContain('appMenu');
    expect(roles('win32')).not.toContain('appMenu');
  });

  test('offer tools for developers only in a console built from source', () => {
    const has = (isPackaged: boolean) =>
      itemsOf(menuTemplate(NOTHING, 'linux', isPackaged)).some(({ role }) => role === 'toggleDevTools');
    expect([has(false), has(true)]).toEqual([true, false]);
  });

  test('lead to every screen that the page offers, and to the guide', () => {
    const gone: string[] = [];
    const items = itemsOf(menuTemplate({ ...NOTHING, goTo: (path) => gone.push(path) }, 'linux', true));
    for (const item of items)
      if (/^(?!About|Print|Save|Show)/.test(item.label ?? '')) (item.click as (() => void) | undefined)?.();
    expect(gone.toSorted()).toEqual(SCREENS.map(({ path }) => path).toSorted());
  });

  test('change the screen of the page that is there', async () => {
    freshMachine();
    await startedDesktop();
    await choose('Logbook');
    expect(argumentsOf('window.loadURL').at(-1)).toBe('app://console/#/logbook');
  });

  test('show the log in its folder', async () => {
    const folder = freshMachine();
    await startedDesktop();
    await choose('Show the log’s folder');
    expect(String(argumentsOf('shell.showItemInFolder')[0])).toContain(join(folder, 'evenings.cabward'));
  });

  test('print', async () => {
    freshMachine();
    await startedDesktop();
    await choose('Print…');
    expect(happenings.map(({ what }) => what)).toContain('contents.print');
  });
});

describe('saving as PDF', () => {
  /** Saves the page of a window. */
  async function save(saveTo: string): Promise<void> {
    freshMachine();
    given.saveTo = saveTo;
    await savePdf(new BrowserWindow({}) as unknown as Parameters<typeof savePdf>[0]);
  }

  test('writes the file that was named', async () => {
    const file = join(temporaryFolder(), 'sheet.pdf');
    await save(file);
    expect(readFileSync(file, 'latin1')).toMatch(/^%PDF/);
  });

  test('tells when the disk refuses', async () => {
    await save(join(temporaryFolder(), 'no-such-folder', 'sheet.pdf'));
    expect(argumentsOf('dialog.showErrorBox')[0]).toBe('The PDF could not be saved');
  });

  test('does nothing when it was cancelled', async () => {
    await save('');
    expect(happenings.map(({ what }) => what)).not.toContain('contents.printToPDF');
  });
});

describe('the bound on calls', () => {
  test('passes as many as are allowed in a second, of each name, and no more', () => {
    let now = 0;
    const isWithin = callRate(() => now, 3);
    expect([1, 2, 3, 4].map(() => isWithin('hello'))).toEqual([true, true, true, false]);
    expect(isWithin('evening.read')).toBe(true);
    now = 999;
    expect(isWithin('hello')).toBe(false);
    now = 1000;
    expect(isWithin('hello')).toBe(true);
  });
});
