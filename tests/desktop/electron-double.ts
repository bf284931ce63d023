/**
 * Stands in for `electron` in Node (see build/vitest.config.ts). It does nothing but take down what it is told and what it is asked to hold.
 *
 * Every part is checked against the real package's types: a name or a parameter that Electron does not have fails to compile.
 */
import type {
  App,
  BrowserWindowConstructorOptions,
  ContextBridge,
  Dialog,
  Display,
  IpcMain,
  IpcRenderer,
  Protocol,
  Menu as RealMenu,
  BrowserWindow as RealWindow,
  Rectangle,
  Screen,
  Session,
  Shell,
  WebContents,
} from 'electron';

/** Parts of a real thing, with its parameters; what they return is the double's business. */
type PartsOf<Real> = {
  [Key in keyof Real]?: Real[Key] extends (...args: infer Args) => unknown
    ? (...args: Args) => unknown
    : Real[Key];
};

type Listener = (...args: never[]) => unknown;

/** What happened, in order: "app.enableSandbox", with its arguments. */
export interface Happening {
  readonly what: string;
  readonly with: readonly unknown[];
}
export const happenings: Happening[] = [];
const note =
  (what: string) =>
  (...args: readonly unknown[]): void => {
    happenings.push({ what, with: args });
  };

/** Where a double's listeners are kept, and how a test makes an event happen. */
class Events {
  readonly #listeners = new Map<string, Listener[]>();

  readonly on = (event: string, listener: Listener): void => {
    this.#listeners.set(event, [...(this.#listeners.get(event) ?? []), listener]);
  };

  /** Tells every listener; the answer is the event, which knows whether it was prevented. */
  readonly happen = (event: string, ...rest: readonly unknown[]): { prevented: boolean } => {
    const told = {
      prevented: false,
      preventDefault: (): void => {
        told.prevented = true;
      },
    };
    for (const listener of this.#listeners.get(event) ?? [])
      (listener as (...args: unknown[]) => unknown)(told, ...rest);
    return told;
  };

  clear(): void {
    this.#listeners.clear();
  }
}

/** What a test sets before it starts the console. */
export const given = {
  isFirstInstance: true,
  displays: [{ x: 0, y: 0, width: 1920, height: 1080 }] as Rectangle[],
  saveTo: '',
  isPackaged: false,
};

export const appEvents = new Events();
export const app = {
  on: appEvents.on,
  whenReady: () => Promise.resolve(),
  getVersion: () => '0.0.0-test',
  getPath: (name) => paths.get(name) ?? '',
  setPath: (name, path) => void paths.set(name, path),
  requestSingleInstanceLock: () => given.isFirstInstance,
  enableSandbox: note('app.enableSandbox'),
  quit: note('app.quit'),
  exit: note('app.exit'),
  get isPackaged() {
    return given.isPackaged;
  },
} satisfies PartsOf<App>;
const paths = new Map<string, string>();

/** A window and its contents, and what makes things happen to them. */
export interface WindowDouble {
  readonly options: BrowserWindowConstructorOptions;
  readonly events: Events;
  readonly contentsEvents: Events;
  readonly contents: WebContents;
  readonly sent: { channel: string; value: unknown }[];
}
export const windows: WindowDouble[] = [];

export function contentsDouble(): { contents: WebContents; events: Events; sent: WindowDouble['sent'] } {
  const events = new Events();
  const sent: WindowDouble['sent'] = [];
  const contents = {
    on: events.on,
    once: events.on,
    isDestroyed: () => false,
    send: (channel, value) => void sent.push({ channel, value }),
    setWindowOpenHandler: (handler) => note('contents.setWindowOpenHandler')(handler),
    reload: note('contents.reload'),
    print: note('contents.print'),
    printToPDF: (options) => {
      note('contents.printToPDF')(options);
      return Promise.resolve(Buffer.from('%PDF-double'));
    },
  } satisfies PartsOf<WebContents>;
  return { contents: contents as unknown as WebContents, events, sent };
}

/** Picking fails to compile when Electron's window has no such part any more. */
type WindowParts = PartsOf<
  Pick<
    RealWindow,
    | 'getNormalBounds'
    | 'isMaximized'
    | 'isFullScreen'
    | 'isMinimized'
    | 'maximize'
    | 'restore'
    | 'focus'
    | 'show'
    | 'loadURL'
    | 'on'
    | 'once'
    | 'webContents'
  >
>;

export class BrowserWindow implements WindowParts {
  readonly webContents: WebContents;
  readonly on: Events['on'];
  readonly once: Events['on'];
  readonly #bounds: Rectangle;

  constructor(options: BrowserWindowConstructorOptions) {
    const events = new Events();
    const { contents, events: contentsEvents, sent } = contentsDouble();
    this.on = events.on;
    this.once = events.on;
    this.webContents = contents;
    const { x = 0, y = 0, width = 0, height = 0 } = options;
    this.#bounds = { x, y, width, height };
    windows.push({ options, events, contentsEvents, contents, sent });
    appEvents.happen('web-contents-created', contents);
  }

  getNormalBounds(): Rectangle {
    return this.#bounds;
  }
  isMaximized(): boolean {
    return happenings.some(({ what }) => what === 'window.maximize');
  }
  readonly isFullScreen = (): boolean => false;
  readonly isMinimized = (): boolean => true;
  readonly maximize = note('window.maximize');
  readonly restore = note('window.restore');
  readonly focus = note('window.focus');
  readonly show = note('window.show');
  readonly loadURL = (address: string): Promise<void> => Promise.resolve(note('window.loadURL')(address));
}
export const dialog = {
  showErrorBox: note('dialog.showErrorBox'),
  showMessageBox: note('dialog.showMessageBox'),
  showSaveDialog: () => Promise.resolve({ canceled: given.saveTo === '', filePath: given.saveTo }),
} satisfies PartsOf<Dialog>;

export const handled = new Map<string, (event: unknown, request: unknown) => Promise<unknown>>();
export const ipcMain = {
  handle: (channel, handler) => void handled.set(channel, handler as never),
} satisfies PartsOf<IpcMain>;

export const rendererEvents = new Events();
export const ipcRenderer = {
  invoke: (channel, ...args) => Promise.resolve({ channel, args }),
  on: rendererEvents.on,
  removeListener: note('ipcRenderer.removeListener'),
} satisfies PartsOf<IpcRenderer>;

export const exposed = new Map<string, unknown>();
export const contextBridge = {
  exposeInMainWorld: (key, api: unknown) => void exposed.set(key, api),
} satisfies PartsOf<ContextBridge>;

export const Menu = {
  buildFromTemplate: (template) => template,
  setApplicationMenu: note('Menu.setApplicationMenu'),
} satisfies PartsOf<typeof RealMenu>;

export const protocol = {
  registerSchemesAsPrivileged: note('protocol.registerSchemesAsPrivileged'),
  handle: note('protocol.handle'),
} satisfies PartsOf<Protocol>;

export const screen = {
  getAllDisplays: () => given.displays.map((workArea) => ({ workArea }) as Display),
} satisfies PartsOf<Screen>;

export const session = {
  defaultSession: {
    setPermissionRequestHandler: note('session.setPermissionRequestHandler'),
    setPermissionCheckHandler: note('session.setPermissionCheckHandler'),
    setDevicePermissionHandler: note('session.setDevicePermissionHandler'),
  } satisfies PartsOf<Session>,
};

export const shell = { showItemInFolder: note('shell.showItemInFolder') } satisfies PartsOf<Shell>;

/** The arguments of the last time that something happened; a fault when it never did. */
export function argumentsOf(what: string): readonly unknown[] {
  const found = happenings.findLast((happening) => happening.what === what);
  if (found === undefined) throw new Error(`${what} never happened`);
  return found.with;
}

/** As it was before any test. */
export function resetElectron(): void {
  happenings.length = 0;
  windows.length = 0;
  handled.clear();
  exposed.clear();
  paths.clear();
  appEvents.clear();
  rendererEvents.clear();
  Object.assign(given, {
    isFirstInstance: true,
    displays: [{ x: 0, y: 0, width: 1920, height: 1080 }],
    saveTo: '',
    isPackaged: false,
  });
}
