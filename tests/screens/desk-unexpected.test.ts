/** What nobody meant at the Desk: an unknown word, half a line, a wrong number, a pasted text, a host that is gone. A clear sentence each time, and nothing lost. */
import type { Page, WebSocketRoute } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { entriesNow } from '../support/desk-check.ts';
import { expectSays, MAKING_UP, openDemo, say } from '../support/desk-page.ts';

let opened: ConsolePage;
/** The page's ways to the host; none is made while it is gone. */
const links: WebSocketRoute[] = [];
let gone = false;

const line = (page: Page): Promise<string> => page.locator('#entry-line').inputValue();

beforeAll(async () => {
  opened = await openConsolePage({ width: 1280, height: 800 });
  const { page } = opened;
  await page.routeWebSocket(/./, (link) => {
    if (gone) {
      void link.close();
      return;
    }
    links.push(link);
    link.connectToServer();
  });
  await page.reload();
  await openDemo(page, false);
  for (const typed of [...MAKING_UP, 'start']) await say(page, typed);
});
afterAll(() => opened.close());

describe('what nobody meant', () => {
  it.each([
    ['an unknown word', 'blorp', '"blorp" is no train, knob, turnout, cab, block or word known here.'],
    ['half a line', '7 to', 'Expected a block or a place.'],
    ['a wrong number', '7 to 99', '"99" does not fit here. Expected a block or a place.'],
    ['a figure that cannot be', '7 sets cut1 0 in 3', 'expected more than 0 mm'],
    [
      'a pasted text of ten thousand letters',
      `note ${'lorem ipsum '.repeat(900)}`,
      'at most 1000 characters',
    ],
    ['pasted nonsense', 'x1 '.repeat(3500), '"x1" is no train'],
  ])(
    '%s is answered in a sentence, changes nothing, and stays in the line to be mended',
    async (_, text, says) => {
      const { page } = opened;
      const before = await entriesNow(page);
      await page.keyboard.insertText(text);
      await page.keyboard.press('Enter');
      await page.locator('.desk-band').getByText(says).waitFor();
      expect(await line(page)).toBe(text);
      expect(await entriesNow(page)).toBe(before);
      await page.keyboard.press('Escape');
      expect(await line(page)).toBe('');
    },
  );

  it('the next line is typed over one that begins with no known word, and on from one that is half said', async () => {
    const { page } = opened;
    await page.keyboard.type('blorp');
    await page.keyboard.press('Enter');
    await page.keyboard.type('7 to');
    expect(await line(page)).toBe('7 to');
    await page.keyboard.press('Enter');
    await page.keyboard.type(' 9');
    expect(await line(page)).toBe('7 to 9');
    await page.keyboard.press('Escape');
  });

  it('a host that is gone while a line is typed is said; the line waits, and goes when it is back', async () => {
    const { page } = opened;
    const before = await entriesNow(page);
    await page.keyboard.type('7 to 4');
    gone = true;
    for (const link of links) await link.close();
    const notice = page.getByText('The host does not answer: what you press does not count.');
    await notice.waitFor();
    await page.keyboard.type(' over');
    await page.keyboard.press('Enter');
    await page.locator('.desk-band').getByText('Nothing was done.').waitFor();
    expect(await line(page)).toBe('7 to 4 over');
    gone = false;
    await notice.waitFor({ state: 'detached' });
    await expect.poll(() => entriesNow(page)).toBe(before);
    await page.keyboard.press('Enter');
    await expect.poll(() => entriesNow(page)).toBe(before + 1);
    expect(await line(page)).toBe('');
    await expectSays(page, 'say', 'Cab 1, No. 7: from Depot to 4.');
  });
});
