/** The window comes back where it was left, if it can be seen there. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  FIRST_STATE,
  onDisplays,
  readWindowState,
  type WindowState,
  writeWindowState,
} from '../../electron/desktop/window-state.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const LEFT: WindowState = {
  place: { x: 40, y: 60 },
  width: 1400,
  height: 900,
  maximized: true,
  fullScreen: false,
};
const SCREEN = { x: 0, y: 0, width: 1920, height: 1080 };
const SECOND = { x: 1920, y: 0, width: 1280, height: 1024 };

describe('a window’s state', () => {
  test('is read as it was written', () => {
    const file = join(temporaryFolder(), 'window.json');
    writeWindowState(file, LEFT);
    expect(readWindowState(file)).toEqual(LEFT);
  });

  test('is the first one where none was kept', () => {
    expect(readWindowState(join(temporaryFolder(), 'window.json'))).toEqual(FIRST_STATE);
  });

  test.each([
    '',
    '{',
    '[]',
    '{"width":1}',
    JSON.stringify({ ...LEFT, width: 1e9 }),
    JSON.stringify({ ...LEFT, more: 1 }),
  ])('is the first one where the file holds %s', (text) => {
    const file = join(temporaryFolder(), 'window.json');
    writeFileSync(file, text);
    expect(readWindowState(file)).toEqual(FIRST_STATE);
  });
});

describe('a window is placed', () => {
  test('where it was left while that display is there', () => {
    expect(onDisplays(LEFT, [SCREEN])).toEqual(LEFT);
    const onSecond = { ...LEFT, place: { x: 2000, y: 10 } };
    expect(onDisplays(onSecond, [SCREEN, SECOND])).toEqual(onSecond);
  });

  test('by the system when that display is gone', () => {
    expect(onDisplays({ ...LEFT, place: { x: 2000, y: 10 } }, [SCREEN]).place).toBeNull();
  });

  test('by the system when only a sliver of it would be seen', () => {
    expect(onDisplays({ ...LEFT, place: { x: 1920 - 79, y: 0 } }, [SCREEN]).place).toBeNull();
    expect(onDisplays({ ...LEFT, place: { x: 1920 - 80, y: 0 } }, [SCREEN]).place).not.toBeNull();
  });
});
