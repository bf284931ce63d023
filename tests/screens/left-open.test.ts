/** A page that is left open while the console is started anew, and an evening that goes on while its railroad is drawn anew. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askHost, type ConsolePage, goTo, goToDrawing, openConsolePage } from '../support/console-page.ts';
import { entriesNow } from '../support/desk-check.ts';
import { expectSays, MAKING_UP, openDemo, say, words } from '../support/desk-page.ts';

let opened: ConsolePage;

beforeAll(async () => {
  opened = await openConsolePage({ width: 1280, height: 800 });
  await openDemo(opened.page, false);
  for (const typed of [...MAKING_UP, 'start']) await say(opened.page, typed);
});
afterAll(() => opened.close());

describe('a console that was started anew at the same address', () => {
  it('is found by the page that was left open; what was half typed stays, and is sent to it', async () => {
    const { page } = opened;
    const before = await entriesNow(page);
    await page.keyboard.type('7 to 4');
    const notice = page.getByText('The host does not answer: what you press does not count.');
    await opened.restartHere(async () => {
      await notice.waitFor();
      await page.keyboard.type(' ov');
    });
    await notice.waitFor({ state: 'detached' });
    expect(await page.locator('#entry-line').inputValue()).toBe('7 to 4 ov');
    await page.keyboard.type('er');
    await page.keyboard.press('Enter');
    await expect.poll(() => entriesNow(page)).toBeGreaterThan(before);
  });
});

describe('an evening on a railroad that is drawn anew meanwhile', () => {
  it('stays on the version that it began with, and says so at the Desk and at the drawing board', async () => {
    const { page } = opened;
    const [card] = await askHost(page, 'railroads.list', {});
    const id = card?.id ?? '';
    const { document } = await askHost(page, 'railroads.read', { id });
    const renamed = JSON.parse(JSON.stringify(document).replaceAll('"Depot Main"', '"Terminal"'));
    expect(await words(page, 'status')).not.toContain('version');
    await askHost(page, 'railroads.saveDraft', { id, name: card?.name ?? '', document: renamed });
    await goToDrawing(page, id, 'track');
    const held = page.locator('.drawing-board-head', {
      hasText: 'the evening that is going on stays on version 1',
    });
    await held.waitFor();
    await page.getByRole('button', { name: 'Publish…' }).press('Enter');
    await page.getByText('the one that is going on stays on version 1').waitFor();
    await page.getByRole('button', { name: 'Publish', exact: true }).press('Enter');
    await held.filter({ hasText: 'version 2' }).waitFor();
    await goTo(page, 'desk');
    await expectSays(page, 'status', 'railroad version 1; 2 is for the next evening');
    const live = await askHost(page, 'evening.read', {});
    expect(live?.document.blocks.map(({ name }) => name)).toContain('Depot Main');
  });

  it('the next evening takes the new version; each is replayed on its own', async () => {
    const { page } = opened;
    await page.locator('#entry-line').focus();
    await page.keyboard.press('Escape');
    await say(page, 'end');
    await page.locator('[data-phase="ended"]').waitFor();
    await openDemo(page, false);
    for (const typed of MAKING_UP) await say(page, typed);
    expect(await words(page, 'status')).not.toContain('version');
    const entries = page.getByRole('region', { name: 'Entries' });
    for (const [evening, block] of [
      ['1', 'Depot Main'],
      ['2', 'Terminal'],
    ]) {
      await goTo(page, `logbook/${evening}`);
      await entries.getByText(`No. 7 placed in 3 ${block}, facing 4`).waitFor();
    }
  });
});
