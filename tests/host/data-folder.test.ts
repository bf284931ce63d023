/** Where data is kept: as each platform is used to, or where the user says. */
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { dataFolder, defaultLogFile } from '../../electron/host/data-folder.ts';

test.each([
  ['linux', {}, join(homedir(), '.local', 'share', 'cabward')],
  ['linux', { XDG_DATA_HOME: '/data' }, join('/data', 'cabward')],
  ['darwin', {}, join(homedir(), 'Library', 'Application Support', 'Cabward')],
  ['win32', { APPDATA: '/roaming' }, join('/roaming', 'Cabward')],
  ['win32', {}, join(homedir(), 'AppData', 'Roaming', 'Cabward')],
  ['linux', { CABWARD_DATA: 'here', XDG_DATA_HOME: '/data' }, resolve('here')],
  ['linux', { CABWARD_DATA: '' }, join(homedir(), '.local', 'share', 'cabward')],
] as const)('on %s with %j it is %s', (platform, environment, folder) => {
  expect(dataFolder(platform, environment)).toBe(folder);
});

test('the log lies in it', () => {
  expect(defaultLogFile('/data/cabward')).toBe(join('/data/cabward', 'evenings.cabward'));
});
