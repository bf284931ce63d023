/** The console in Electron: one instance, one window, over the same host and contract as everywhere. */
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { app, type BrowserWindow, dialog, Menu, protocol, session, shell } from 'electron';
import { systemClock } from '../host/clock.ts';
import { dataFolder } from '../host/data-folder.ts';
import { type OpenConsole, openConsole } from '../host/open-console.ts';
import { type PageFiles, readPageFiles } from '../web/page-files.ts';
import { consoleProtocol } from './app-protocol.ts';
import { carryCalls, carryPushes } from './calls.ts';
import { PAGE, SCHEME } from './console-address.ts';
import { openConsoleWindow } from './console-window.ts';
import { menuTemplate } from './menu.ts';
import { printPage, savePdf } from './print.ts';
import { CONSOLE_SCHEME, denyPermissions, keepInPlace } from './security.ts';

/** Where the build put things, seen from the built main; a test names its own. */
export interface BuiltFiles {
  /** Folder of the built page. */
  readonly page: string;
  readonly preload: string;
}

const built = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const BUILT: BuiltFiles = { page: built('../renderer/'), preload: built('../desktop/preload.cjs') };

/** Tells why the console cannot be opened, and ends. */
function giveUp(title: string, says: string): void {
  dialog.showErrorBox(title, says);
  app.exit(1);
}

/** The console and its page, or null when the user was told why not. */
function openParts(files: BuiltFiles): { console: OpenConsole; page: PageFiles } | null {
  const page = readPageFiles(files.page);
  if (page === null || !existsSync(files.preload)) {
    giveUp('Cabward is not built', `Expected the built screens in ${files.page}: run \`npm run build\`.`);
    return null;
  }
  const opened = openConsole({ version: app.getVersion(), runtime: 'electron' });
  if (opened.kind === 'open') return { console: opened.console, page };
  if (opened.kind === 'already-running') giveUp('Cabward is already running', opened.says);
  else giveUp('The log cannot be opened', opened.problem.says);
  return null;
}

function setMenu(window: BrowserWindow, log: string): void {
  const acts = {
    print: () => printPage(window),
    savePdf: () => void savePdf(window),
    showLog: () => shell.showItemInFolder(log),
    // Only the part after # differs, so the page stays and changes its screen.
    goTo: (screen: string) => void window.loadURL(`${PAGE}#/${screen}`),
    about: () =>
      void dialog.showMessageBox(window, {
        title: 'Cabward',
        message: `Cabward ${app.getVersion()}`,
        detail: `Advises the dispatcher; it cannot power the track or cut it.\nThe log: ${log}`,
      }),
  };
  Menu.setApplicationMenu(Menu.buildFromTemplate(menuTemplate(acts, process.platform, app.isPackaged)));
}

/** Closes the log before the program ends; a second wish to quit does not hurry it. */
function closeOnQuit(console: OpenConsole): void {
  let closing = false;
  app.on('before-quit', (event) => {
    event.preventDefault();
    if (closing) return;
    closing = true;
    void console.close().finally(() => app.exit(0));
  });
}

function openWhenReady(files: BuiltFiles): void {
  const parts = openParts(files);
  if (parts === null) return;
  denyPermissions(session.defaultSession);
  protocol.handle(SCHEME, consoleProtocol(parts.page));
  carryCalls(parts.console.host, systemClock.monotonic);
  const window = openConsoleWindow({
    preload: files.preload,
    stateFile: join(app.getPath('userData'), 'window.json'),
  });
  carryPushes(parts.console.host, window.webContents);
  setMenu(window, parts.console.log);
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on('window-all-closed', () => app.quit());
  closeOnQuit(parts.console);
}

/** Starts the console, or brings the one that is running to the front. */
export async function startDesktop(files: BuiltFiles = BUILT): Promise<void> {
  const folder = join(dataFolder(), 'desktop');
  mkdirSync(folder, { recursive: true });
  // Before the lock below: it is one lock for each data folder.
  app.setPath('userData', folder);
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  app.enableSandbox();
  protocol.registerSchemesAsPrivileged([CONSOLE_SCHEME]);
  app.on('web-contents-created', (_event, contents) => keepInPlace(contents));
  await app.whenReady();
  openWhenReady(files);
}
