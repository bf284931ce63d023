/** What is being rehearsed is not lost: by a reload, a host that is started again, or another window; and it is begun anew by one key. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AT_WORK } from '../../renderer/rehearsal/at-work.ts';
import { askHost, type ConsolePage, goTo } from '../support/console-page.ts';
import { pictureFile } from '../support/picture.ts';
import { movesAsked, openThreeTrains } from '../support/rehearsal-page.ts';

const goal = (page: Page, name: string) =>
  page.locator('.rehearsal-train').filter({ hasText: name }).getByLabel('to', { exact: true });
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first();
const tab = (page: Page, name: RegExp) => page.getByRole('tab', { name });
const atWork = (page: Page) => askHost(page, 'keep.list', { kind: AT_WORK });

describe('a rehearsal without a name', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains({ width: 1280, height: 800 });
  });
  afterAll(() => opened.close());

  const comesBack = (page: Page) => page.getByText(/^From .*, not yet kept under a name\.$/).waitFor();

  it('is there again when the page is read anew, with what was wished, and says that it has no name', async () => {
    const { page } = opened;
    await goal(page, 'No. 3').selectOption('B8');
    await goal(page, 'No. 24').selectOption('B3');
    // At once: what was changed in the last moment is written, too.
    await page.reload();
    await comesBack(page);
    expect(await goal(page, 'No. 3').inputValue()).toBe('B8');
    expect(await goal(page, 'No. 24').inputValue()).toBe('B3');
  });

  it('is there again when the console is started again, with its plans and what was made real of them', async () => {
    const { page } = opened;
    await button(page, 'In which order?').click();
    await page.getByText(/^Found/).waitFor();
    const total = await page.locator('.rehearsal-sheet table').first().textContent();
    await button(page, 'Make it real, order by order').click();
    await button(page, /^Make real: /).click();
    await page.getByText(/^Granted: /).waitFor();
    await expect.poll(async () => JSON.stringify(await atWork(page))).toContain('"given":[');
    await opened.restart();
    await goTo(page, 'rehearsal');
    await comesBack(page);
    await page.locator('.rehearsal-orders [data-turn="given"]').waitFor();
    await tab(page, /In which order/).click();
    expect(await page.locator('.rehearsal-sheet table').first().textContent()).toBe(total);
    await page.screenshot({ path: pictureFile('rehearsal-left-1280') });
    expect((await movesAsked(page)).length).toBe(1);
  });

  it('says that what the planner was at is lost when the console goes, and lets it be asked again', async () => {
    const { page } = opened;
    await tab(page, /How many/).click();
    const ask = button(page, 'How many trains?');
    await ask.click();
    await button(page, 'Stop counting').waitFor();
    await opened.restartHere(() =>
      page.getByText('The connection to the host was lost while it was worked out. Ask again.').waitFor(),
    );
    await page.getByText('The host does not answer').waitFor({ state: 'detached' });
    expect(await ask.getAttribute('aria-disabled')).toBeNull();
    await tab(page, /Make it real/).click();
  });

  it('is left to the window that works on it: another one begins with the evening as it stands', async () => {
    const { page } = opened;
    const second = await page.context().newPage();
    await second.goto(page.url());
    await second.locator('.rehearsal-train').first().waitFor();
    expect(await second.getByText(/not yet kept/).count()).toBe(0);
    await tab(second, /Kept/).click();
    await second.getByText('Not kept under a name').waitFor();
    await second.close();
  });

  it('is begun anew by one key, brought back by another, and stays gone when it was left so', async () => {
    const { page } = opened;
    await page.keyboard.press('Control+Backspace');
    await page.locator('.rehearsal-train').first().waitFor();
    expect(await goal(page, 'No. 24').inputValue()).toBe('');
    await expect.poll(async () => (await atWork(page)).length).toBe(0);
    await page.keyboard.press('Control+z');
    await page.locator('.rehearsal-orders [data-turn="given"]').waitFor();
    await expect.poll(async () => (await atWork(page)).length).toBe(1);
    await page.keyboard.press('Control+Backspace');
    await expect.poll(async () => (await atWork(page)).length).toBe(0);
    await page.reload();
    await page.locator('.rehearsal-train').first().waitFor();
    expect(await page.getByText(/not yet kept/).count()).toBe(0);
    expect(await goal(page, 'No. 24').inputValue()).toBe('');
  });

  it('that is damaged is said in a sentence, and stays untouched until it is deleted', async () => {
    const { page } = opened;
    const value = { format: 'cabward-rehearsal-at-work/1', evening: null, keptAs: null, rehearsal: 7 };
    await askHost(page, 'keep.write', { kind: AT_WORK, id: 'damaged', value });
    await page.reload();
    await page.getByText(/^What was being rehearsed last cannot be read/).waitFor();
    await goal(page, 'No. 24').selectOption('B3');
    await expect.poll(async () => (await atWork(page)).length).toBe(2);
    expect((await atWork(page)).find(({ id }) => id === 'damaged')?.value).toEqual(value);
    await tab(page, /Kept/).click();
    await page.getByText(/it cannot be read by this version: \$\.rehearsal/).waitFor();
    await button(page, /^Delete the one of/).click();
    await button(page, /^Really delete the one of/).click();
    await expect.poll(async () => (await atWork(page)).length).toBe(1);
    expect(opened.complaints).toEqual([]);
  });
});
