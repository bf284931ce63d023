/** The console's window. */
import { BrowserWindow, screen } from 'electron';
import { PAGE } from './console-address.ts';
import { WEB_PREFERENCES } from './security.ts';
import { onDisplays, readWindowState, writeWindowState } from './window-state.ts';

/** The ground of the dark theme: what is seen before the page is. */
const GROUND = '#0c0e10';

export interface WindowPlaces {
  /** The preload's file. */
  readonly preload: string;
  /** Where the window's place is kept. */
  readonly stateFile: string;
}

function keepState(window: BrowserWindow, file: string): void {
  const { x, y, width, height } = window.getNormalBounds();
  writeWindowState(file, {
    place: { x, y },
    width,
    height,
    maximized: window.isMaximized(),
    fullScreen: window.isFullScreen(),
  });
}

/** Opens the window where it was left; it is shown when there is something to see. */
export function openConsoleWindow({ preload, stateFile }: WindowPlaces): BrowserWindow {
  const areas = screen.getAllDisplays().map(({ workArea }) => workArea);
  const state = onDisplays(readWindowState(stateFile), areas);
  const window = new BrowserWindow({
    ...(state.place ?? {}),
    width: state.width,
    height: state.height,
    minWidth: 1024,
    minHeight: 640,
    show: false,
    title: 'Cabward',
    backgroundColor: GROUND,
    fullscreen: state.fullScreen,
    webPreferences: { ...WEB_PREFERENCES, preload },
  });
  if (state.maximized) window.maximize();
  window.once('ready-to-show', () => window.show());
  window.on('close', () => keepState(window, stateFile));
  // The evening is in the host: a page that is gone is simply opened again.
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason !== 'clean-exit') window.webContents.reload();
  });
  void window.loadURL(PAGE);
  return window;
}
