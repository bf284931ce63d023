/** Finds a browser of Chromium's kind on this machine: for the console's window, and for the tests in the browser. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright';

const ON_PATH = [
  'google-chrome',
  'google-chrome-stable',
  'chrome',
  'microsoft-edge',
  'microsoft-edge-stable',
  'chromium',
  'chromium-browser',
];

const MAC = ['Google Chrome', 'Microsoft Edge', 'Chromium'];
const WINDOWS = ['Google/Chrome/Application/chrome.exe', 'Microsoft/Edge/Application/msedge.exe'];

type Environment = Readonly<Record<string, string | undefined>>;

/** Where browsers usually lie on a platform, the likeliest first. */
export function usualPlaces(platform: NodeJS.Platform, environment: Environment): string[] {
  if (platform === 'darwin') return MAC.map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);
  if (platform === 'win32') {
    const folders = [environment.PROGRAMFILES, environment['PROGRAMFILES(X86)'], environment.LOCALAPPDATA];
    return folders.flatMap((folder) => (folder ? WINDOWS.map((file) => join(folder, file)) : []));
  }
  const folders = (environment.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return ON_PATH.flatMap((name) => folders.map((folder) => join(folder, name)));
}

/**
 * The browser to use: the one that `CABWARD_BROWSER` names, else Playwright's own if it was fetched, else Chrome, Edge or Chromium where they usually lie.
 *
 * @returns path of its program; null when there is none
 */
export function findBrowser(environment: Environment = process.env): string | null {
  const named = environment.CABWARD_BROWSER;
  const places = [
    ...(named ? [named] : []),
    chromium.executablePath(),
    ...usualPlaces(process.platform, environment),
  ];
  return places.find((place) => existsSync(place)) ?? null;
}

/** Whether a window can be shown at all. */
export function hasDisplay(platform: NodeJS.Platform, environment: Environment): boolean {
  return platform !== 'linux' || Boolean(environment.DISPLAY || environment.WAYLAND_DISPLAY);
}
