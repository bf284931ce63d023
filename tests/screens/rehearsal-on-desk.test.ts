/** An evening's plan of three trains, carried out from the Desk by keyboard alone: its orders are offered when they have their turn, and nobody goes back to the Rehearsal. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { REPEAT_MS } from '../../renderer/desk/key-reader.ts';
import { type ConsolePage, goTo } from '../support/console-page.ts';
import { expectSays, words } from '../support/desk-page.ts';
import { pictureFile } from '../support/picture.ts';
import { entriesOf, movesAsked, openKeptPlan, openThreeTrains, send } from '../support/rehearsal-page.ts';

const granted = async (page: Page) =>
  (await movesAsked(page))
    .filter(({ outcome }) => outcome === 'done')
    .map(({ input }) => (input.do === 'request-move' ? input.train : ''));

/** Presses a key and waits for what comes of it in the evening. */
async function press(page: Page, key: string): Promise<void> {
  const before = Number(await page.locator('.desk').getAttribute('data-entries'));
  await page.keyboard.press(key);
  await expect
    .poll(async () => Number(await page.locator('.desk').getAttribute('data-entries')), { message: key })
    .toBeGreaterThan(before);
}

/** Until somebody comes into a block: the key of his cab, no faster than a key is taken for bouncing. */
async function advance(page: Page, cab: number, blocks: number): Promise<void> {
  for (let block = 0; block < blocks; block += 1) {
    await page.waitForTimeout(REPEAT_MS);
    await press(page, `F${cab}`);
  }
}

describe('a plan that was made real', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains({ width: 1280, height: 800 });
    const { page } = opened;
    await openKeptPlan(page);
    await page.getByRole('button', { name: /^Make real: No. 3/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByText(/^Granted: /).waitFor();
    await goTo(page, 'desk');
    await page.locator('[data-zone="next"]').waitFor();
  });
  afterAll(() => opened.close());

  it('holds the others in their strips and says in NEXT what it waits for, and offers none of them another way on', async () => {
    const { page } = opened;
    await press(page, 'PageDown');
    await expectSays(page, 'next', 'Plan 1: No. 24 to 3 until No. 3 has left 5 Mill.');
    await expectSays(page, 'cabs', 'by the plan until No. 3 has left 2 West Throat');
    const before = await entriesOf(page);
    await page.keyboard.press('Insert');
    await expectSays(page, 'band', 'Nobody asks for anything.');
    expect(await entriesOf(page)).toBe(before);
  });

  it('offers the next order when the reports have made it its turn, and says why', async () => {
    const { page } = opened;
    await advance(page, 1, 2);
    await expectSays(page, 'next', 'Plan 1, order 2 of 3');
    await page.keyboard.press('F9');
    await expectSays(
      page,
      'band',
      'No. 24 to 3 has its turn, order 2 of 3 of Plan 1: No. 3 has left 5 Mill.',
    );
    await page.screenshot({ path: pictureFile('desk-plan-1280') });
  });

  it('is there again when the console is started again, and can be put aside and gone on with', async () => {
    const { page } = opened;
    await opened.restart();
    await goTo(page, 'desk');
    await expectSays(page, 'next', 'Plan 1, order 2 of 3');
    await page.keyboard.type('plan aside');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(page, 'next')).not.toContain('Plan 1');
    await page.keyboard.type('plan on');
    await page.keyboard.press('Enter');
    await expectSays(page, 'next', 'Plan 1, order 2 of 3');
  });

  it('gives it with the key that grants, judged again: refused where the railroad stands otherwise, with the reason', async () => {
    const { page } = opened;
    await send(page, [{ do: 'tag', thing: 'B4', why: 'rail is loose', by: 'Kim' }]);
    await press(page, 'Insert');
    await expectSays(page, 'band', 'REFUSED 24');
    await send(page, [{ do: 'untag', thing: 'B4', by: 'Kim' }]);
    // The same key within a quarter of a second is one that bounces.
    await page.waitForTimeout(REPEAT_MS);
    await press(page, 'Insert');
    expect(await granted(page)).toEqual(['t3', 't24']);
    await expectSays(page, 'cabs', 'No. 24 in 12');
  });

  it('comes to its end without a walk back, which is said once', async () => {
    const { page } = opened;
    await press(page, 'PageDown');
    await advance(page, 1, 2);
    await expectSays(page, 'next', 'Plan 1, order 3 of 3');
    await press(page, 'Insert');
    await press(page, 'PageDown');
    await advance(page, 4, 4);
    await advance(page, 2, 3);
    await expectSays(page, 'band', 'Plan 1 is carried out: every train has run its 3 orders.');
    await page.screenshot({ path: pictureFile('desk-plan-end-1280') });
    expect(await granted(page)).toEqual(['t3', 't24', 't12']);
    expect(
      (await movesAsked(page)).every(({ impliedBy }) => impliedBy === 'made real from a rehearsal'),
    ).toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(() => words(page, 'band')).not.toContain('carried out');
    await page.reload();
    await page.locator('[data-zone="next"]').waitFor();
    await expectSays(page, 'band', 'the evening goes on where it was');
    expect(await words(page, 'band')).not.toContain('carried out');
    expect(await words(page, 'next')).not.toContain('Plan 1');
    expect(opened.complaints).toEqual([]);
  });
});

describe('a plan that a train is late for', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains({ width: 1280, height: 800 });
    const { page } = opened;
    await openKeptPlan(page);
    await page.getByRole('button', { name: /^Make real: No. 3/ }).click();
    await page.getByText(/^Granted: /).waitFor();
    await goTo(page, 'desk');
    await page.locator('[data-zone="next"]').waitFor();
  });
  afterAll(() => opened.close());

  it('is planned again from the present by one line, with the same wishes', async () => {
    const { page } = opened;
    await page.keyboard.type('plan again');
    await page.keyboard.press('Enter');
    await page
      .getByText(/arrivals sum to|^Found/)
      .first()
      .waitFor();
    await page.locator('.rehearsal-chart svg').waitFor();
    expect(await page.evaluate(() => window.location.hash)).toBe('#/rehearsal');
    await page.getByRole('tab', { name: /Trains/ }).click();
    const goal = page
      .locator('.rehearsal-train')
      .filter({ hasText: 'No. 24' })
      .getByLabel('to', { exact: true });
    expect(await goal.inputValue()).toBe('B3');
    expect(opened.complaints).toEqual([]);
  });
});
