/** Rehearsing by hand: orders, refusals and reports on a copy of the evening, on the Desk's own parts; then its orders made real one by one, judged again. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { REPEAT_MS } from '../../renderer/desk/key-reader.ts';
import { expectNoAxeFaults } from '../support/axe.ts';
import { askHost, type ConsolePage, goTo } from '../support/console-page.ts';
import { expectSays, words } from '../support/desk-page.ts';
import { pictureFile } from '../support/picture.ts';
import { entriesOf, movesAsked, openThreeTrains, send } from '../support/rehearsal-page.ts';

const above = (page: Page) => page.locator('.desk-above');
const button = (page: Page, name: string | RegExp) => above(page).getByRole('button', { name }).first();
const says = (page: Page) => above(page).getByRole('status');

async function openByHand(page: Page): Promise<void> {
  await goTo(page, 'rehearsal/by-hand');
  await above(page).waitFor();
}

/** A running evening with its copy in view, and the entries of the evening. */
async function openCopy(): Promise<{ readonly opened: ConsolePage; readonly live: number }> {
  const opened = await openThreeTrains({ width: 1280, height: 800 });
  await openByHand(opened.page);
  return { opened, live: await entriesOf(opened.page) };
}

/** The entries of the copy. */
const entriesHere = async (page: Page): Promise<number> =>
  Number(await page.locator('.desk').getAttribute('data-entries'));

/** Presses a key and waits for what comes of it in the copy. */
async function press(page: Page, key: string): Promise<void> {
  const before = await entriesHere(page);
  await page.keyboard.press(key);
  await expect.poll(() => entriesHere(page), { message: `after ${key}` }).toBeGreaterThan(before);
}

async function type(page: Page, line: string): Promise<void> {
  await page.keyboard.type(line);
  await press(page, 'Enter');
}

describe('by keyboard alone', () => {
  let opened: ConsolePage;
  let live = 0;
  beforeAll(async () => {
    ({ opened, live } = await openCopy());
  });
  afterAll(() => opened.close());

  it('forks the evening as it stands, and says in words, by a frame and across the board that it is not live', async () => {
    const { page } = opened;
    await expectSays(page, 'status', 'REHEARSAL, NOT LIVE');
    expect(await above(page).textContent()).toContain('Rehearsal: nothing here is live.');
    const board = page.locator('.desk-board');
    const withWords = await board.screenshot();
    await page.evaluate(() =>
      document.styleSheets[0]?.insertRule('.desk-board::after { content: none !important }'),
    );
    expect((await board.screenshot()).equals(withWords)).toBe(false);
    await page.evaluate(() => document.styleSheets[0]?.deleteRule(0));
    expect(await page.locator('.desk').evaluate((desk) => getComputedStyle(desk).borderTopStyle)).toBe(
      'dashed',
    );
    await expectSays(page, 'cabs', 'No. 24');
  });

  it('takes typed orders and refuses what cannot be, with the reason and ways out', async () => {
    const { page } = opened;
    await page.keyboard.type('plan aside');
    await page.keyboard.press('Enter');
    await expectSays(page, 'band', 'No plan is carried out here.');
    await type(page, '3 to 8');
    await type(page, '24 to 5');
    await expectSays(page, 'band', 'REFUSED');
    await page.screenshot({ path: pictureFile('by-hand-refused-1280') });
  });

  it('goes on by the Desk’s own keys: read back, thrown, advanced, until the other train is free to go', async () => {
    const { page } = opened;
    await press(page, 'PageDown');
    for (let block = 0; block < 3; block += 1) {
      await press(page, 'F1');
      // The same key within a quarter of a second is one that bounces.
      await page.waitForTimeout(REPEAT_MS);
    }
    await press(page, 'Insert');
    expect(await words(page, 'cabs')).toContain('to 5');
    await type(page, '12 ends 10');
  });

  it('left nothing of all this in the evening’s log', async () => {
    expect(await entriesOf(opened.page)).toBe(live);
  });

  it('is there again, played up to where it was, when the page is read anew', async () => {
    const { page } = opened;
    const before = await words(page, 'cabs');
    await page.reload();
    await says(page)
      .getByText(/^From .*, as it was left\.$/)
      .waitFor();
    expect((await words(page, 'cabs')).replace(/\d+:\d\d/g, '')).toBe(before.replace(/\d+:\d\d/g, ''));
    await button(page, /^Make real: .*\(1 of 3\)/).waitFor();
  });

  it('makes its first order real with one key: the live evening judges it again', async () => {
    const { page } = opened;
    await page.keyboard.press('Control+Enter');
    await says(page)
      .getByText(/^Made real: /)
      .waitFor();
    const moves = await movesAsked(page);
    expect(moves).toMatchObject([
      { input: { train: 't3' }, outcome: 'done', impliedBy: 'made real from a rehearsal' },
    ]);
    expect(await entriesOf(page)).toBe(live + 1);
  });

  it('is refused the next where the live railroad went another way, says why, and keeps it to be tried again', async () => {
    const { page } = opened;
    await page.keyboard.press('Control+Enter');
    await says(page)
      .getByText(/^Refused now: /)
      .waitFor();
    const refused = (await movesAsked(page)).at(-1);
    expect(refused).toMatchObject({ input: { train: 't24' }, outcome: 'refused' });
    expect(await says(page).textContent()).toContain(refused?.reasons[0]?.says ?? 'a reason');
    await button(page, /^Make real: .*\(1 of 2\)/).waitFor();
    await page.screenshot({ path: pictureFile('by-hand-refused-now-1280') });
    // Live, too, No. 3 goes on and is clear.
    const [first] = await movesAsked(page);
    await send(page, [{ do: 'acknowledge', authority: first?.authority }]);
    for (let block = 0; block < 2; block += 1) await send(page, [{ do: 'advance', train: 't3' }]);
    await page.keyboard.press('Control+Enter');
    await says(page)
      .getByText(/^Made real: /)
      .waitFor();
    expect((await movesAsked(page)).at(-1)).toMatchObject({ input: { train: 't24' }, outcome: 'done' });
  });

  it('has nothing that axe finds wrong, in three themes', () =>
    expectNoAxeFaults(opened.page, '.desk-above'));

  it('leaves an order out with one key: it is not in the log, and none is left', async () => {
    const { page } = opened;
    const before = await entriesOf(page);
    await page.keyboard.press('Control+Delete');
    await expect.poll(() => button(page, /^Make real/).getAttribute('aria-disabled')).toBe('true');
    expect(await entriesOf(page)).toBe(before);
  });

  it('begins anew from the evening as it stands now with one key', async () => {
    const { page } = opened;
    await page.keyboard.press('Control+Backspace');
    await expect.poll(() => button(page, /Discard it/).getAttribute('aria-disabled')).toBe('true');
    expect(await entriesHere(page)).toBe(await entriesOf(page));
    await page.reload();
    await above(page).waitFor();
    expect(await says(page).count()).toBe(0);
    expect(opened.complaints).toEqual([]);
  });
});

describe('by pointer alone', () => {
  let opened: ConsolePage;
  let live = 0;
  beforeAll(async () => {
    ({ opened, live } = await openCopy());
  });
  afterAll(() => opened.close());

  const strip = (name: string) =>
    opened.page
      .locator('[data-zone="cabs"]')
      .getByRole('button', { name: new RegExp(`(^|\\s)${name}\\b`) })
      .first();
  const offer = (name: string) =>
    opened.page.locator('.desk-drawer').getByRole('button', { name, exact: true }).click();
  const block = (id: string) =>
    opened.page.locator('[data-zone="board"]').locator(`[data-opens="${id}"]`).first().click();

  it('sends a train on the copy by three touches, and makes that order real by one', async () => {
    const { page } = opened;
    await strip('No. 3').click();
    await offer('Close');
    await block('B8');
    await offer('to here');
    await button(page, /^Make real: /).click();
    await says(page)
      .getByText(/^Made real: /)
      .waitFor();
    expect(await movesAsked(page)).toMatchObject([{ input: { train: 't3', to: 'B8' }, outcome: 'done' }]);
    expect(await entriesOf(page)).toBe(live + 1);
  });

  it('leaves another out, and discards the copy', async () => {
    const { page } = opened;
    await strip('No. 12').click();
    await offer('Close');
    await block('B10');
    await offer('ends here');
    await button(page, /^Leave out: /).click();
    await expect.poll(() => button(page, /^Make real/).getAttribute('aria-disabled')).toBe('true');
    await button(page, /Discard it/).click();
    await expect.poll(() => button(page, /Discard it/).getAttribute('aria-disabled')).toBe('true');
    expect(await entriesOf(page)).toBe(live + 1);
  });

  it('stops the live evening, too, when CALL ALL STOP is touched: that is never a rehearsal', async () => {
    const { page } = opened;
    await page.getByRole('button', { name: /CALL ALL STOP/ }).click();
    await says(page).getByText('CALL ALL STOP went to the live evening, too: it is stopped.').waitFor();
    expect((await askHost(page, 'evening.read', {}))?.state.phase).toBe('stopped');
  });

  it('stops the live evening once more when it goes on meanwhile, though the copy still stands', async () => {
    const { page } = opened;
    await send(page, [{ do: 'resume' }]);
    const phase = async () => (await askHost(page, 'evening.read', {}))?.state.phase;
    expect(await phase()).toBe('running');
    const here = await entriesHere(page);
    await page.getByRole('button', { name: /CALL ALL STOP/ }).click();
    await expect.poll(phase).toBe('stopped');
    expect(await entriesHere(page)).toBe(here);
    expect(opened.complaints).toEqual([]);
  });
});
