/** A plan carried out from the Rehearsal: who has his turn and who is held, a train that is late, another plan from here; and what there is without an evening. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { askHost, type ConsolePage, goTo, openConsolePage } from '../support/console-page.ts';
import { passingSidingExample } from '../support/example.ts';
import { pictureFile } from '../support/picture.ts';
import {
  conflictsShown,
  movesAsked,
  openKeptPlan,
  openThreeTrains,
  send,
} from '../support/rehearsal-page.ts';

const row = (page: Page, name: string) => page.locator('.rehearsal-train').filter({ hasText: name });
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first();
const order = (page: Page, name: string) =>
  page.locator('.rehearsal-orders li').filter({ hasText: new RegExp(`\\d:\\d\\d ${name}`) });

const real = (page: Page) => page.getByRole('tab', { name: 'Make it real' });

const turnOf = (page: Page, name: string) => order(page, name).first().getAttribute('data-turn');

describe('a plan for three trains that is made real', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains({ width: 1280, height: 800 });
    const { page } = opened;
    await openKeptPlan(page);
  });
  afterAll(() => opened.close());

  it('says whose turn it is, and of each that is held what it waits for', async () => {
    const { page } = opened;
    expect(await turnOf(page, 'No. 3 to')).toBe('next');
    expect(await turnOf(page, 'No. 24 to')).toBe('held');
    expect(await order(page, 'No. 24 to').first().textContent()).toContain(
      'Not its turn until No. 3 has left 5 Mill',
    );
    expect(await order(page, 'No. 24 to').first().getByRole('button').count()).toBe(0);
  });

  it('gives no more than what has its turn, and holds the rest however late the first train is', async () => {
    const { page } = opened;
    await button(page, 'Make real all that can go now').click();
    await expect.poll(async () => (await movesAsked(page)).length).toBeGreaterThan(0);
    await expect.poll(() => turnOf(page, 'No. 3 to')).toBe('given');
    const asked = await movesAsked(page);
    expect(asked.every(({ outcome }) => outcome === 'done')).toBe(true);
    expect(asked.map(({ input }) => (input.do === 'request-move' ? input.train : ''))).not.toContain('t24');
    await expect
      .poll(() => button(page, /^Make (the next order )?real/).getAttribute('aria-disabled'))
      .toBe('true');
    await order(page, 'No. 24 to').first().scrollIntoViewIfNeeded();
    await page.screenshot({ path: pictureFile('rehearsal-held-1280') });
  });

  it('says of a train that is late by how much, who waits for it, and what to do when it lasts', async () => {
    const { page } = opened;
    const late = page.getByRole('list', { name: 'Behind the plan' });
    expect(await late.count()).toBe(0);
    await page.evaluate(() => {
      const now = performance.now.bind(performance);
      performance.now = () => now() + 80_000;
    });
    await late
      .getByText(/^No\. 3 is 1:\d\d behind the plan; .*No\. 24.* waits? for it\.$/)
      .waitFor({ timeout: 10_000 });
    expect(await page.locator('.rehearsal-late').textContent()).toContain('nothing locks');
    await page.screenshot({ path: pictureFile('rehearsal-late-1280') });
    // The page's own clock again.
    await page.evaluate(() => Reflect.deleteProperty(performance, 'now'));
  });

  it('is there again when the Desk was gone to for the throws, and the next has its turn by the reports', async () => {
    const { page } = opened;
    await goTo(page, 'desk');
    const [first] = await movesAsked(page);
    await send(page, [{ do: 'acknowledge', authority: first?.authority }]);
    for (let block = 0; block < 2; block += 1) await send(page, [{ do: 'advance', train: 't3' }]);
    await goTo(page, 'rehearsal');
    await real(page).click();
    await expect.poll(() => turnOf(page, 'No. 3 to')).toBe('given');
    await expect.poll(() => turnOf(page, 'No. 24 to')).toBe('next');
    await button(page, /^Make real: No. 24/).click();
    await expect.poll(() => turnOf(page, 'No. 24 to')).toBe('given');
  });

  it('offers an order again that was annulled on the Desk', async () => {
    const { page } = opened;
    const last = (await movesAsked(page)).at(-1);
    await send(page, [{ do: 'annul', authority: last?.authority, why: 'the switcher is in the way' }]);
    await expect.poll(() => turnOf(page, 'No. 24 to')).toBe('next');
  });

  it('is planned again from here by keyboard alone: trains on their way count as arrived, nothing conflicts, and it can be made real', async () => {
    const { page } = opened;
    await button(page, 'Plan again from here').focus();
    await page.keyboard.press('Enter');
    await page
      .getByText(/arrivals sum to|Found/)
      .first()
      .waitFor();
    await page.locator('.rehearsal-chart svg').waitFor({ timeout: 30_000 });
    expect(await conflictsShown(page)).toEqual({ count: 0, listed: 0 });
    await page.getByRole('tab', { name: /Trains/ }).click();
    expect(await row(page, 'No. 3').getByLabel('No. 3 stands in').inputValue()).toMatch(/^e\d+ /);
    expect(await row(page, 'No. 24').getByLabel('to', { exact: true }).inputValue()).toBe('B3');
    await real(page).focus();
    await page.keyboard.press('Enter');
    const before = (await movesAsked(page)).length;
    await button(page, 'Make real all that can go now').focus();
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await movesAsked(page)).length).toBeGreaterThan(before);
    expect((await movesAsked(page)).slice(before).every(({ outcome }) => outcome === 'done')).toBe(true);
    await page.screenshot({ path: pictureFile('rehearsal-again-1280') });
  });

  it('says of a train that has left its way where it is', async () => {
    const { page } = opened;
    await send(page, [{ do: 'train-at', train: 't12', edge: 'e50', toward: 'g22' }]);
    await page.getByText(/No. 12 is in .*, which is not on its way in this plan/).waitFor();
    expect(opened.complaints).toEqual([]);
  });
});

describe('two windows', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains({ width: 1280, height: 800 });
  });
  afterAll(() => opened.close());

  it('that ask at once each get their own plan, and what one stops goes on in the other', async () => {
    const { page: first } = opened;
    const second = await first.context().newPage();
    await second.goto(first.url());
    for (const [page, to] of [
      [first, 'B8'],
      [second, 'B7'],
    ] as const) {
      await row(page, 'No. 3').getByLabel('to', { exact: true }).selectOption(to);
      await row(page, 'No. 24').getByLabel('to', { exact: true }).selectOption('B3');
      await button(page, 'In which order?').click();
    }
    for (const page of [first, second]) await page.getByText(/arrivals sum to/).waitFor();
    await button(first, /^Stop, take the best/).click();
    await first.getByText('this is the best so far').waitFor();
    expect(await second.getByText(/arrivals sum to/).count()).toBe(1);
    await button(second, /^Stop, take the best/).click();
    await second.getByText('this is the best so far').waitFor();
    for (const [page, goal, other] of [
      [first, '8 Ridge', ''],
      [second, '7 Curve', '8 Ridge'],
    ] as const) {
      await expect.poll(() => page.getByRole('button', { name: /^Plan \d/ }).count()).toBe(1);
      const chart = (await page.locator('.rehearsal-chart').textContent()) ?? '';
      expect(chart).toContain(goal);
      if (other !== '') expect(chart).not.toContain(other);
      expect(await conflictsShown(page)).toEqual({ count: 0, listed: 0 });
    }
    await second.close();
    expect(opened.complaints).toEqual([]);
  });
});

describe('without an evening', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800 });
    const { page } = opened;
    const text = JSON.stringify(passingSidingExample);
    await askHost(page, 'railroads.import', { text, name: passingSidingExample.name });
    await goTo(page, 'rehearsal');
    await page.locator('.rehearsal-head').waitFor();
  });
  afterAll(() => opened.close());

  it('begins with an empty railroad, and another can be chosen', async () => {
    const { page } = opened;
    const pick = page.getByLabel('On', { exact: true });
    await pick.waitFor();
    await pick.selectOption({ label: passingSidingExample.name });
    // The demo has a No. 7 too, and the siding no No. 24.
    await button(page, 'Put No. 24 on').waitFor({ state: 'detached' });
    await button(page, 'Put No. 7 on').waitFor();
    expect(await page.locator('.rehearsal-train').count()).toBe(0);
    await pick.selectOption({ label: demoRailroad.name });
    await button(page, 'Put No. 24 on').waitFor();
  });

  it('takes a place as a destination: the first of its tracks that nobody else has', async () => {
    const { page } = opened;
    const to = (name: string) => row(page, name).getByLabel('to', { exact: true });
    for (const [name, block] of [
      ['No. 3', 'B3'],
      ['No. 12', 'B10'],
    ] as const) {
      await button(page, `Put ${name} on`).click();
      await to(name).selectOption({ label: 'Depot: its first free track' });
      expect(await to(name).inputValue()).toBe(block);
    }
  });

  it('tells how many trains can keep moving, says what is an estimate, and what would help', async () => {
    const { page } = opened;
    await page.getByLabel('On', { exact: true }).selectOption({ label: passingSidingExample.name });
    await page.getByRole('tab', { name: 'How many' }).click();
    await button(page, 'How many trains?').click();
    await page.getByText(/can keep moving on this railroad/).waitFor({ timeout: 60_000 });
    expect(await page.getByText('as in UIC Code 406 (an estimate)').count()).toBe(1);
    expect(await page.locator('.rehearsal-helps li').first().textContent()).toMatch(
      /With .*2 trains could keep moving/,
    );
    await page.screenshot({ path: pictureFile('rehearsal-how-many-1280') });
    // Where the system asks for more contrast, the Rehearsal has it too.
    await page.emulateMedia({ contrast: 'more' });
    await page.locator('html[data-contrast="more"]').waitFor();
    expect(opened.complaints).toEqual([]);
  });
});
