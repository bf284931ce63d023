/** A console in Electron's double, on a data folder and a built page of its own. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type BuiltFiles, startDesktop } from '../../electron/desktop/desktop.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { app, appEvents, happenings, resetElectron, type WindowDouble, windows } from './electron-double.ts';

/** A page as the build leaves one, and a preload. */
export function builtFiles(): BuiltFiles {
  const folder = temporaryFolder();
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Cabward</title>');
  writeFileSync(join(folder, 'assets', 'index-1.js'), 'export {};');
  writeFileSync(join(folder, 'preload.cjs'), '');
  return { page: folder, preload: join(folder, 'preload.cjs') };
}

/** Names a data folder of its own for this test; the double of Electron is as new. */
export function freshMachine(): string {
  resetElectron();
  const before = process.env.CABWARD_DATA;
  const folder = temporaryFolder();
  process.env.CABWARD_DATA = folder;
  onTestFinished(() => {
    if (before === undefined) delete process.env.CABWARD_DATA;
    else process.env.CABWARD_DATA = before;
  });
  return folder;
}

/** Waits until the console told Electron to end. */
export async function untilExit(): Promise<void> {
  while (!happenings.some(({ what }) => what === 'app.exit'))
    await new Promise((resolve) => setTimeout(resolve, 5));
}

/** Starts the console; it is quit when the test ends. */
export async function startedDesktop(files: BuiltFiles = builtFiles()): Promise<WindowDouble> {
  await startDesktop(files);
  onTestFinished(async () => {
    if (appEvents.happen('before-quit').prevented) await untilExit();
  });
  const [window] = windows;
  if (window === undefined) throw new Error(`no window was opened (${app.getVersion()})`);
  return window;
}
