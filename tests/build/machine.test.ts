/** What the commands need of a machine, and where they look for it. */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findBrowser, hasDisplay, usualPlaces } from '../../build/find-browser.ts';
import { isFit } from '../../build/fit-node.js';
import { hashOf } from '../../build/sources.ts';

describe('a Node', () => {
  test.each(['v22.18.0', 'v22.20.1', 'v23.0.0', 'v24.21.0', '26.0.0'])('%s is new enough', (version) => {
    expect(isFit(version)).toBe(true);
  });

  test.each(['v18.19.0', 'v20.20.2', 'v22.17.9'])('%s is too old to run TypeScript as it is', (version) => {
    expect(isFit(version)).toBe(false);
  });
});

describe('a browser', () => {
  test('is looked for along the path on Linux, Chrome before Chromium', () => {
    const places = usualPlaces('linux', { PATH: '/opt/bin:/usr/bin' });
    const first = (name: string) => places.indexOf(join('/usr/bin', name));
    expect(first('google-chrome')).toBeGreaterThanOrEqual(0);
    expect(first('google-chrome')).toBeLessThan(first('chromium'));
  });

  test('is looked for among the programs on macOS and Windows', () => {
    expect(usualPlaces('darwin', {})).toContain(
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    );
    const places = usualPlaces('win32', { PROGRAMFILES: 'C:/Programs' });
    expect(places.some((place) => place.includes('msedge.exe'))).toBe(true);
  });

  test('is nowhere where there is no path', () => {
    expect(usualPlaces('linux', {})).toEqual([]);
    expect(usualPlaces('win32', {})).toEqual([]);
  });

  test('is the one that is named, if it is there', () => {
    expect(findBrowser({ CABWARD_BROWSER: process.execPath })).toBe(process.execPath);
    expect(findBrowser({ CABWARD_BROWSER: '/nowhere/browser', PATH: '' })).not.toBe('/nowhere/browser');
  });
});

test.each([
  ['linux', {}, false],
  ['linux', { DISPLAY: ':0' }, true],
  ['linux', { WAYLAND_DISPLAY: 'wayland-0' }, true],
  ['darwin', {}, true],
  ['win32', {}, true],
] as const)('a window can be shown on %s with %j: %s', (platform, environment, can) => {
  expect(hasDisplay(platform, environment)).toBe(can);
});

test('what is built from is known by its contents: the same for the same files, another for others', () => {
  expect(hashOf(['build/sources.ts'])).toBe(hashOf(['build/sources.ts']));
  expect(hashOf(['build/sources.ts'])).not.toBe(hashOf(['build/build.ts']));
});
