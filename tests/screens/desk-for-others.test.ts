/** What the Desk has for the others in the room: the voice, the wall, the cards; and for eyes that need more contrast. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAP_HEIGHT_RATIO, letterMm, pxPerMm } from '../../renderer/theme/letter-sizes.ts';
import { askHost, type ConsolePage, goTo, openConsolePage } from '../support/console-page.ts';
import { expectSays, MAKING_UP, openDemo, say, words } from '../support/desk-page.ts';
import { pictureFile } from '../support/picture.ts';

describe('what is said', () => {
  let opened: ConsolePage;
  const spoken = (page: Page) => page.evaluate(() => (window as unknown as { spoken: string[] }).spoken);

  beforeAll(async () => {
    opened = await openConsolePage();
    const { page } = opened;
    // The system's voice, that only remembers.
    await page.addInitScript(() => {
      const said: string[] = [];
      Object.assign(window, { spoken: said });
      Object.defineProperty(window, 'speechSynthesis', {
        value: { cancel: () => undefined, speak: ({ text }: { text: string }) => said.push(text) },
      });
      Object.defineProperty(window, 'SpeechSynthesisUtterance', {
        value: class {
          text: string;
          constructor(text: string) {
            this.text = text;
          }
        },
      });
    });
    await page.reload();
    await openDemo(page, false);
    for (const line of [...MAKING_UP, 'start']) await say(page, line);
  });
  afterAll(() => opened.close());

  it('is silent until the voice is wanted', async () => {
    await say(opened.page, '7 to 4 over');
    await expectSays(opened.page, 'say', 'Cab 1, No. 7');
    expect(await spoken(opened.page)).toEqual([]);
  });

  it('is what SAY shows, word for word: a grant, a refusal, an annul, a stop', async () => {
    const { page } = opened;
    await page.getByRole('button', { name: 'More', exact: true }).press('Enter');
    await page.getByRole('button', { name: 'Say aloud' }).press('Enter');
    await page.getByRole('button', { name: 'Close', exact: true }).press('Enter');
    await page.evaluate(() => (window as unknown as { spoken: string[] }).spoken.splice(0));
    const shown: string[] = [];
    for (const line of ['right', '12 to 4 over', 'annul 7 not now', 'c2 stop', 'stop child on the track']) {
      await say(page, line);
      await expect.poll(async () => (await spoken(page)).length).toBe(shown.length + 1);
      shown.push((/“(.*)”/.exec(await words(page, 'say')) ?? [])[1] ?? '');
    }
    const said = await spoken(page);
    expect(said).toEqual(shown);
    expect(said[0]).toMatch(/^Cab 1, No\. 7: right, \d{1,2}:\d\d\.$/);
    expect(said.slice(1)).toEqual([
      "Cab 2, No. 12: not now. 4 is No. 7's (Cab 1). I will call you.",
      'Cab 1, No. 7: your authority is annulled. Hold where you are. Read back.',
      'Cab 2, stop. Cab 2, stop.',
      'All handles to zero. Master switch: by the cellar stairs.',
    ]);
  });
});

describe('the wall and the cards', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage();
    const { page } = opened;
    await openDemo(page, false);
    for (const line of [...MAKING_UP, 'start', '7 to 5 over', 'right']) await say(page, line);
  });
  afterAll(() => opened.close());

  it('has letters on the wall that are read from two metres: 16 minutes of arc at least, 20 for NEXT', async () => {
    const { page } = opened;
    await goTo(page, 'wall');
    await page.getByText('K4').first().waitFor();
    const perMm = pxPerMm({ screenInches: 24, screenPx: [1920, 1080] });
    const heights = (selector: string) =>
      page.$$eval(selector, (parts) =>
        parts.map((part) => Number.parseFloat(getComputedStyle(part).fontSize)),
      );
    const capMm = (px: number) => (px * CAP_HEIGHT_RATIO) / perMm;
    const names = await heights('.wall .board-name text');
    expect(names.length).toBeGreaterThan(15);
    for (const px of names) expect(capMm(px)).toBeGreaterThanOrEqual(letterMm(16, 2000));
    for (const px of await heights('.wall-far, .wall-clock'))
      expect(capMm(px)).toBeGreaterThanOrEqual(letterMm(20, 2000));
    const seen = await page.locator('.wall .board-name').allTextContents();
    const numbers = seen.map((name) => /^\d+/.exec(name)?.[0]).filter((number) => number !== undefined);
    expect(new Set(numbers).size).toBe(18);
    for (const theme of ['light', 'contrast', 'dark'] as const) {
      await askHost(page, 'settings.write', { theme });
      await page.locator(`html[data-theme="${theme}"]`).waitFor();
      await page.screenshot({ path: pictureFile(`wall-${theme}`) });
    }
  });

  it('prints a card for each cab in ink on paper, none cut by the end of a page', async () => {
    const { page } = opened;
    await goTo(page, 'cab-cards');
    await page.getByRole('article', { name: 'Card of Cab 1' }).waitFor();
    await page.emulateMedia({ media: 'print' });
    const inks = await page.$$eval('.cab-card, .cab-card *', (parts) => [
      ...new Set(parts.map((part) => getComputedStyle(part).color)),
    ]);
    expect(inks.every((ink) => /^rgb\((0|34), \1, \1\)$/.test(ink))).toBe(true);
    // Four cards take two pages, and no card is parted.
    const pdf = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(2);
    expect(
      await page.$$eval('.cab-card', (cards) => cards.map((card) => getComputedStyle(card).breakInside)),
    ).toEqual(Array(4).fill('avoid'));
    await page.emulateMedia({ media: null });
  });

  it('shows more contrast where the system asks for it, and moves nothing', async () => {
    const { page } = opened;
    await goTo(page, 'desk');
    await page.emulateMedia({ contrast: 'more', reducedMotion: 'reduce' });
    await page.locator('html[data-contrast="more"]').waitFor();
    expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe('rgb(255, 255, 255)');
    expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
    await page.emulateMedia({ contrast: null });
    await page.locator('html[data-contrast=""]').waitFor();
  });

  it('made the browser complain of nothing', () => {
    expect(opened.complaints).toEqual([]);
  });
});
