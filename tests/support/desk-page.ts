/** The Desk in a browser as the tests of its parts want it: an evening on the demo railroad, lines typed, zones read. */
import type { Page } from 'playwright';
import { expect } from 'vitest';
import type { Clock } from '../../electron/host/clock.ts';
import { askHost } from './console-page.ts';
import { entriesNow, grewBeyond } from './desk-check.ts';

/** A clock that the test turns. */
export function turnedClock(): { readonly clock: Clock; readonly pass: (seconds: number) => void } {
  let second = 0;
  const start = Date.parse('2026-11-25T20:00:00Z');
  return {
    clock: { wall: () => start + second * 1000, monotonic: () => second * 1000 },
    pass: (seconds) => {
      second += seconds;
    },
  };
}

/** Opens an evening on the demo railroad. */
export async function openDemo(page: Page, alone: boolean): Promise<void> {
  const [card] = await askHost(page, 'railroads.list', {});
  await askHost(page, 'evening.open', { railroad: card?.id ?? '', alone });
  await page.locator('[data-phase="making-up"]').waitFor();
}

/** Types a line and waits for what comes of it. */
export async function say(page: Page, line: string): Promise<void> {
  const before = await entriesNow(page);
  await page.keyboard.type(line);
  await page.keyboard.press('Enter');
  if (!(await grewBeyond(page, before))) throw new Error(`nothing came of "${line}"`);
}

/** Who runs, and where two trains stand. */
export const MAKING_UP = [
  'c1 Avery',
  'c2 Blake',
  'c3 Kim',
  'as shown',
  '7 at 3 facing 4 c1',
  '12 at 10 facing 4 c2',
];
export const zone = (page: Page, name: string) => page.locator(`[data-zone="${name}"]`).first();
/** What a zone says. */
export const words = async (page: Page, name: string): Promise<string> =>
  (await zone(page, name).textContent()) ?? '';

/** A zone comes to say something: an answer is drawn a moment after the entry that it is about. */
export const expectSays = (page: Page, name: string, says: string): Promise<void> =>
  expect.poll(() => words(page, name)).toContain(says);
