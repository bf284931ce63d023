/** The menus: what the system expects of a program. Every live act has its key or its place on the screen instead. */
import type { MenuItemConstructorOptions } from 'electron';

export interface MenuActs {
  print(): void;
  savePdf(): void;
  showLog(): void;
  /** Shows a screen of the console, by the name in its address. */
  goTo(screen: string): void;
  about(): void;
}

const SEPARATOR: MenuItemConstructorOptions = { type: 'separator' };

/** The screens that the menu leads to, in the order of the page's own list; the first nine have a key. */
const SCREENS: readonly (readonly [path: string, label: string])[] = [
  ['desk', 'Desk'],
  ['rehearsal', 'Rehearsal'],
  ['logbook', 'Logbook'],
  ['drawing-board', 'Drawing board'],
  ['power-room', 'Power room'],
  ['settings', 'Settings'],
  ['wall', 'Wall view'],
  ['cab-cards', 'Cards to print'],
];

/**
 * The template of the menu bar.
 *
 * @param isPackaged tools for developers are offered in a built-from-source console alone
 */
export function menuTemplate(
  acts: MenuActs,
  platform: NodeJS.Platform,
  isPackaged: boolean,
): MenuItemConstructorOptions[] {
  const isMac = platform === 'darwin';
  const file: MenuItemConstructorOptions = {
    label: '&File',
    submenu: [
      { label: 'Print…', accelerator: 'CmdOrCtrl+P', click: () => acts.print() },
      { label: 'Save as PDF…', accelerator: 'CmdOrCtrl+Shift+P', click: () => acts.savePdf() },
      SEPARATOR,
      { label: 'Show the log’s folder', click: () => acts.showLog() },
      SEPARATOR,
      isMac ? { role: 'close' } : { role: 'quit' },
    ],
  };
  const view: MenuItemConstructorOptions = {
    label: '&View',
    submenu: [
      { role: 'reload' },
      ...(isPackaged ? [] : [{ role: 'toggleDevTools' } as const]),
      SEPARATOR,
      { role: 'resetZoom' },
      { role: 'zoomIn' },
      { role: 'zoomOut' },
      SEPARATOR,
      { role: 'togglefullscreen' },
    ],
  };
  const go: MenuItemConstructorOptions = {
    label: '&Go',
    submenu: SCREENS.map(([path, label], index) => ({
      label,
      accelerator: `CmdOrCtrl+${index + 1}`,
      click: () => acts.goTo(path),
    })),
  };
  const help: MenuItemConstructorOptions = {
    role: 'help',
    submenu: [
      { label: 'How to…', click: () => acts.goTo('help') },
      SEPARATOR,
      { label: 'About Cabward', click: () => acts.about() },
    ],
  };
  return [
    ...(isMac ? [{ role: 'appMenu' } as const] : []),
    file,
    { role: 'editMenu' },
    view,
    go,
    { role: 'windowMenu' },
    help,
  ];
}
