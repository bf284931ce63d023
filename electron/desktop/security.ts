/** What the page may do in Electron, as data and as the handlers that hold it to it. Tests read both. */
import type { CustomScheme, Session, WebContents, WebPreferences } from 'electron';
import { SCHEME } from './console-address.ts';

/** A window's page: in a sandbox, apart from the preload, without Node. Defaults are named too, so that a change of them changes nothing. */
export const WEB_PREFERENCES = {
  sandbox: true,
  contextIsolation: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  experimentalFeatures: false,
  webviewTag: false,
  navigateOnDragDrop: false,
  plugins: false,
  spellcheck: false,
} as const satisfies WebPreferences;

/** The scheme of the page: an origin as `https:` has one. Without `corsEnabled`, since no other origin has any business here. */
export const CONSOLE_SCHEME = {
  scheme: SCHEME,
  privileges: { standard: true, secure: true, supportFetchAPI: true },
} as const satisfies CustomScheme;

/** Denies a page whatever it could ask of the machine: camera, notifications, devices, another screen. */
export function denyPermissions(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}

/** Keeps contents where they are: no navigation, no other window, no guest page. The page moves by its `#` alone, which is no navigation. */
export function keepInPlace(contents: WebContents): void {
  contents.on('will-navigate', (event) => event.preventDefault());
  contents.on('will-frame-navigate', (event) => event.preventDefault());
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}
