/** `npm run package`: packs the console as a program for this machine's system. `--proof` packs around a stand-in for Electron and says what that proves. */
import { readFileSync } from 'node:fs';
import { build } from 'electron-builder';
import { buildStale } from './build-stale.ts';
import { PACKAGE_FOLDER, packageConfig } from './electron-builder.ts';
import { root } from './fit-node.js';
import { provePackage } from './package-proof.ts';

const { version } = JSON.parse(readFileSync(`${root}node_modules/electron/package.json`, 'utf8')) as {
  version: string;
};

await buildStale({ all: false });
if (process.argv.includes('--proof')) {
  process.exitCode = (await provePackage(packageConfig(version))) ? 0 : 1;
} else {
  await build({ projectDir: root, config: packageConfig(version), publish: 'never' });
  console.log(`Packed into ${PACKAGE_FOLDER}/.`);
}
