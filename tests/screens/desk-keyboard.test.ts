/** An evening at the Desk by keyboard alone: every order and observation, no pointer at all; it ends as `rehearse` ends with the same script. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ConsolePage, openConsolePage } from '../support/console-page.ts';
import {
  entriesNow,
  expectAsRehearsed,
  expectEveryVerb,
  grewBeyond,
  playedEvening,
} from '../support/desk-check.ts';
import { TYPED_EVENING } from '../support/desk-evening.ts';

/** Keys that send nothing: they only tell or show something. */
const SILENT: readonly string[] = ['[NumpadDivide]', '[NumpadMultiply]'];
/** A little more than what the Desk takes for a key that bounces. */
const BETWEEN_KEYS_MS = 270;

let opened: ConsolePage;
const silent: string[] = [];

async function say(line: string): Promise<void> {
  const { keyboard } = opened.page;
  const key = /^\[(.+)\]$/.exec(line)?.[1];
  const before = await entriesNow(opened.page);
  if (key === undefined) {
    await keyboard.type(line);
    await keyboard.press('Enter');
  } else await keyboard.press(key);
  if (!SILENT.includes(line) && !(await grewBeyond(opened.page, before))) silent.push(line);
  await opened.page.waitForTimeout(BETWEEN_KEYS_MS);
}

/** Goes through the page by Tab until the control with that name has the focus. */
async function tabTo(name: string): Promise<void> {
  for (let tries = 0; tries < 60; tries += 1) {
    await opened.page.keyboard.press('Tab');
    const focused = await opened.page.evaluate(() => document.activeElement?.textContent ?? '');
    if (focused.includes(name)) return;
  }
  throw new Error(`no control "${name}" was reached by Tab`);
}

beforeAll(async () => {
  opened = await openConsolePage();
  const { page } = opened;
  await page.getByRole('button', { name: 'Open with a crew' }).first().waitFor();
  await page.evaluate(() => {
    const counts = window as unknown as { pointers: number };
    counts.pointers = 0;
    for (const type of ['pointerdown', 'mousedown', 'touchstart'])
      window.addEventListener(type, () => (counts.pointers += 1), { capture: true });
  });
  await tabTo('Open with a crew');
  await page.keyboard.press('Enter');
  await page.locator('[data-phase="making-up"]').waitFor();
  for (const line of TYPED_EVENING) await say(line);
});
afterAll(() => opened.close());

describe('an evening at the Desk by keyboard alone', () => {
  it('takes every line and key', () => {
    expect(silent).toEqual([]);
  });

  it('is of 120 inputs or more, and says everything that can be said', async () => {
    const { events } = await playedEvening(opened.page);
    expect(events.length).toBeGreaterThanOrEqual(120);
    expectEveryVerb(events);
  });

  it('ends in the state that the command line gives for the same script', async () => {
    await expectAsRehearsed(opened.page);
  });

  it('used no pointer, and the browser complained of nothing', async () => {
    expect(await opened.page.evaluate(() => (window as unknown as { pointers: number }).pointers)).toBe(0);
    expect(opened.complaints).toEqual([]);
  });
});
