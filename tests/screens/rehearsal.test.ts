/** An evening's problem in the Rehearsal: three trains, one siding, one yard; by pointer alone, and by keyboard alone. */
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askHost, type ConsolePage, goTo } from '../support/console-page.ts';
import {
  conflictsShown,
  entriesOf,
  faultsIn,
  lastKept,
  movesAsked,
  openThreeTrains,
  send,
} from '../support/rehearsal-page.ts';

const row = (page: Page, name: string) => page.locator('.rehearsal-train').filter({ hasText: name });
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first();
const tab = (page: Page, name: RegExp) => page.getByRole('tab', { name });

describe('by pointer alone', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains();
    await opened.page.evaluate(() => {
      const counts = window as unknown as { keys: number };
      counts.keys = 0;
      window.addEventListener('keydown', () => (counts.keys += 1), { capture: true });
    });
  });
  afterAll(() => opened.close());

  it('begins with the trains as they stand live, and says that it is not live', async () => {
    const { page } = opened;
    expect(await page.locator('.rehearsal-train').count()).toBe(3);
    expect(await page.getByText('nothing here is live').count()).toBe(1);
    expect(await row(page, 'No. 24').getByLabel('No. 24 stands in').inputValue()).toBe('e46 g16');
  });

  it('asks “Can I?” and is shown the order that proves it', async () => {
    const { page } = opened;
    for (const [name, to] of [
      ['No. 3', 'B8'],
      ['No. 12', 'B10'],
    ] as const)
      await row(page, name).getByLabel('to', { exact: true }).selectOption(to);
    await button(page, /^Pick No. 24/).click();
    await page.locator('[data-zone="board"] [data-opens="B3"]').first().click();
    const goal = row(page, 'No. 24').getByLabel('to', { exact: true });
    await expect.poll(() => goal.inputValue()).toBe('B3');
    await button(page, 'Can I?').click();
    await page.getByText('Safe.').waitFor();
    expect(await page.locator('.rehearsal-witness li').count()).toBeGreaterThanOrEqual(3);
  });

  it('asks “In which order?”, sees the best so far, and takes it before the time is up', async () => {
    const { page } = opened;
    await button(page, 'In which order?').click();
    await page.getByText(/arrivals sum to/).waitFor();
    await button(page, /^Stop, take the best/).click();
    await page.locator('.rehearsal-chart svg').waitFor();
    expect(await page.getByText('this is the best so far').count()).toBe(1);
    expect(await conflictsShown(page)).toEqual({ count: 0, listed: 0 });
    expect(await page.getByText('The rules of the evening take every step of it.').count()).toBe(1);
  });

  it('steps through it, and the board moves along', async () => {
    const { page } = opened;
    const said = page.locator('[data-zone="board"] table').first();
    const before = await said.textContent();
    await button(page, 'To the end').click();
    await page.getByText(/^Step (\d+) of \1,/).waitFor();
    await expect.poll(() => said.textContent()).not.toBe(before);
    await button(page, 'To the beginning').click();
    await page.getByText(/^Step 0 of/).waitFor();
  });

  it('drags a start: after each drag the conflicts shown are those of the independent checker', async () => {
    const { page } = opened;
    for (const by of [-160, 60, 220]) {
      const handle = page.locator('.chart-start').nth(1);
      await handle.scrollIntoViewIfNeeded();
      const box = await handle.locator('.chart-reach').boundingBox();
      const [x, y] = [(box?.x ?? 0) + 22, (box?.y ?? 0) + 22];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + by / 2, y, { steps: 3 });
      await page.mouse.move(x + by, y, { steps: 3 });
      await page.mouse.up();
      await button(page, 'Keep it').click();
      await page.getByText(/^Kept as/).waitFor();
      await expect.poll(async () => (await lastKept(page)).plans.at(-1)?.name).toContain('dragged');
      const faults = faultsIn(await lastKept(page));
      expect(await conflictsShown(page)).toEqual({ count: faults, listed: faults });
    }
  });

  it('left nothing of all this in the evening’s log', async () => {
    expect(await movesAsked(opened.page)).toEqual([]);
  });

  it('makes the plan real: the log of the evening has exactly its orders, and what cannot go yet says why', async () => {
    const { page } = opened;
    await page.getByRole('button', { name: 'Plan 1', exact: true }).click();
    await button(page, 'Make it real, order by order').click();
    const before = await entriesOf(page);
    const orders = await page.locator('.rehearsal-orders li').count();
    await button(page, 'Make real all that can go now').click();
    await page.locator('.rehearsal-real [role="status"]').waitFor();
    // It goes from order to order until none has its turn, or one is refused.
    await page
      .locator('.rehearsal-real')
      .getByText(/^None has its turn yet|^Every order of it was made real|^Refused now/)
      .first()
      .waitFor();
    const asked = await movesAsked(page);
    const granted = asked.filter(({ outcome }) => outcome === 'done');
    expect(granted.length).toBeGreaterThan(0);
    expect(granted.every(({ impliedBy }) => impliedBy === 'made real from a rehearsal')).toBe(true);
    expect(await entriesOf(page)).toBe(before + asked.length);
    expect(asked.length).toBeLessThanOrEqual(orders);
    expect(await page.locator('.rehearsal-orders [data-turn="given"]').count()).toBe(granted.length);
  });

  it('holds the plan against what happens then', async () => {
    const { page } = opened;
    const [first] = await movesAsked(page);
    const train = first?.input.do === 'request-move' ? first.input.train : '';
    await send(page, [{ do: 'acknowledge', authority: first?.authority }]);
    await send(page, [{ do: 'advance', train }]);
    await tab(page, /What happened/).click();
    await page.getByText(/^1 of \d+ arrivals have happened/).waitFor();
    expect(await page.getByText('as planned', { exact: true }).count()).toBe(1);
    await button(page, 'Keep it').click();
    await page.getByText(/^Kept as/).waitFor();
  });

  it('opens it again from what was kept, and deletes it, asked twice', async () => {
    const { page } = opened;
    await tab(page, /Kept/).click();
    await button(page, 'Open Rehearsal 1').click();
    await page.locator('.rehearsal-chart svg').waitFor();
    expect((await lastKept(page)).madeReal).not.toBeNull();
    await tab(page, /Kept/).click();
    await button(page, 'Delete Rehearsal 1').click();
    await button(page, 'Really delete Rehearsal 1').click();
    await page.getByText('No rehearsal is kept yet').waitFor();
    expect(await askHost(page, 'keep.list', { kind: 'rehearsal' })).toEqual([]);
  });

  it('used no key, and the browser complained of nothing', async () => {
    expect(await opened.page.evaluate(() => (window as unknown as { keys: number }).keys)).toBe(0);
    expect(opened.complaints).toEqual([]);
  });
});

describe('by keyboard alone', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains({ width: 1280, height: 800 });
  });
  afterAll(() => opened.close());

  /** Goes on by Tab until the focus is there. */
  async function tabTo(place: Locator): Promise<void> {
    await place.waitFor();
    for (let presses = 0; presses < 200; presses += 1) {
      if (await place.evaluate((element) => element === document.activeElement)) return;
      await opened.page.keyboard.press('Tab');
    }
    throw new Error(`Tab does not lead to ${place}`);
  }
  const press = async (place: Locator, key = 'Enter') => {
    await tabTo(place);
    await opened.page.keyboard.press(key);
  };

  it('asks, plans, cancels, drags, steps, keeps, opens again and makes real', async () => {
    const { page } = opened;
    for (const [name, to] of [
      ['No. 3', '8 R'],
      ['No. 12', '10 D'],
      ['No. 24', '3 D'],
    ] as const) {
      await tabTo(row(page, name).getByLabel('to', { exact: true }));
      await page.keyboard.type(to);
    }
    await press(button(page, 'Can I?'));
    await page.getByText('Safe.').waitFor();
    await press(button(page, 'In which order?'));
    await page.getByText(/arrivals sum to/).waitFor();
    await press(button(page, /^Stop, take the best/));
    const handle = page.locator('.chart-start').first();
    await tabTo(handle);
    const at = Number(await handle.getAttribute('aria-valuenow'));
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(() => handle.getAttribute('aria-valuenow')).toBe(String(at + 10));
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => handle.getAttribute('aria-valuenow')).toBe(String(at + 9));
    await press(page.getByRole('button', { name: 'Plan 1', exact: true }));
    await press(button(page, 'Step on'));
    await page.getByText(/^Step 1 of/).waitFor();
    await press(button(page, 'Keep it'));
    await page.getByText(/^Kept as/).waitFor();
    await press(tab(page, /Kept/));
    await press(button(page, 'Open Rehearsal 1'));
    await press(tab(page, /Make it real/));
    await press(button(page, /^Make real: /));
    await page.getByText(/^Granted: /).waitFor();
    const [order] = await movesAsked(page);
    expect(order).toMatchObject({ outcome: 'done', impliedBy: 'made real from a rehearsal' });
    expect(opened.complaints).toEqual([]);
  });

  it('shows the refusal when the live state has moved on', async () => {
    const { page } = opened;
    const [order] = await movesAsked(page);
    await send(page, [{ do: 'annul', authority: order?.authority, why: 'the live state moves on' }]);
    await send(page, [{ do: 'tag', thing: 'B1', why: 'rail is loose', by: 'Kim' }]);
    for (let tries = 0; tries < 6; tries += 1) {
      if ((await page.getByText(/^Refused now, as the railroad stands/).count()) > 0) break;
      await press(button(page, /^Make real: /));
      await page.waitForTimeout(200);
    }
    const refused = (await movesAsked(page)).findLast(({ outcome }) => outcome === 'refused');
    expect(await page.getByText(/^Refused now, as the railroad stands: /).textContent()).toContain(
      refused?.reasons[0]?.says ?? 'a reason',
    );
  });
});

describe('what is wrong', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openThreeTrains();
  });
  afterAll(() => opened.close());
  const alert = () => opened.page.locator('.rehearsal-trains [role="alert"]');

  it('with a train stands as a sentence at its row: two in one block, one that does not fit', async () => {
    const { page } = opened;
    await row(page, 'No. 12').getByLabel('No. 12 stands in').selectOption('e11 g1');
    expect(await row(page, 'No. 12').locator('[role="alert"]').textContent()).toContain('both in 5 Mill');
    await row(page, 'No. 12').getByLabel('No. 12 stands in').selectOption('e32 g12');
    await button(page, 'Put No. 41 on').click();
    await row(page, 'No. 41').getByLabel('No. 41 stands in').selectOption('e50 g22');
    expect(await row(page, 'No. 41').locator('[role="alert"]').textContent()).toMatch(
      /No. 41 does not fit there: it is 5′ 11″ long, and behind its head are 4′ 11″ of track/,
    );
    expect(await button(page, 'Can I?').getAttribute('aria-disabled')).toBe('true');
    await button(page, 'Take No. 41 out').click();
    await expect.poll(() => alert().count()).toBe(0);
  });

  it('is all said at once, while the board shows who stands right and marks where the others were to be', async () => {
    const { page } = opened;
    await row(page, 'No. 12').getByLabel('No. 12 stands in').selectOption('e11 g1');
    await button(page, 'Put No. 41 on').click();
    await row(page, 'No. 41').getByLabel('No. 41 stands in').selectOption('e50 g22');
    await expect.poll(() => alert().count()).toBe(2);
    const blocks = page.getByRole('table', { name: 'Blocks (Board, rehearsal)' });
    expect(await blocks.getByRole('row').filter({ hasText: '12 Yard Front' }).textContent()).toContain(
      'No. 24',
    );
    expect(await page.locator('.rehearsal-board .board-name-box').count()).toBe(2);
    await button(page, 'Take No. 41 out').click();
    await row(page, 'No. 12').getByLabel('No. 12 stands in').selectOption('e32 g12');
    await expect.poll(() => alert().count()).toBe(0);
  });

  it('with a knob of a saved setting is mended by itself: it is turned for the train on it, and told', async () => {
    const { page } = opened;
    await page.getByLabel('Begin anew from').selectOption('setting loops');
    await button(page, 'Put No. 12 on').click();
    await row(page, 'No. 12').getByLabel('No. 12 stands in').selectOption('e6 g4');
    await row(page, 'No. 12').getByLabel('on', { exact: true }).selectOption('2');
    await row(page, 'No. 12').getByLabel('to', { exact: true }).selectOption('B5');
    await page.getByText(/^Turned in this rehearsal for the trains there: .*selector 3/).waitFor();
    expect(await alert().count()).toBe(0);
  });

  it('is not begun with: a train is put on a free track that is long enough, and the next key is in its row', async () => {
    const { page } = opened;
    await page.getByLabel('Begin anew from').selectOption('empty');
    for (const name of ['No. 3', 'No. 7', 'No. 12', 'No. 18', 'No. 24', 'No. 41']) {
      await button(page, `Put ${name} on`).focus();
      await page.keyboard.press('Enter');
      await expect
        .poll(() =>
          row(page, name)
            .getByLabel(`${name} stands in`)
            .evaluate((of) => of === document.activeElement),
        )
        .toBe(true);
    }
    // Six trains on four cabs: those that only stand are dead.
    expect(await alert().count()).toBe(0);
    expect(await row(page, 'No. 41').textContent()).toContain('It stands dead');
    await page.locator('[data-train="t3"]').getByLabel('to', { exact: true }).selectOption('B7');
    expect(await button(page, 'Can I?').getAttribute('aria-disabled')).toBeNull();
    await row(page, 'No. 24').getByLabel('to', { exact: true }).selectOption('B9');
    expect(await row(page, 'No. 24').locator('[role="alert"]').textContent()).toMatch(
      /No. 3 has Cab 1 too: one cab runs one train/,
    );
    await button(page, 'Take No. 24 out').focus();
    await page.keyboard.press('Enter');
    await expect
      .poll(() => button(page, 'Put No. 24 on').evaluate((of) => of === document.activeElement))
      .toBe(true);
  });

  it('with a kept rehearsal whose destination is gone is said at its train', async () => {
    const { page } = opened;
    await button(page, 'Keep it').click();
    await page.getByText(/^Kept as/).waitFor();
    const kept = await lastKept(page);
    const trains = kept.situation.trains.map((train) => ({ ...train, to: 'B99' }));
    const value = { ...kept, name: 'from another railroad', situation: { ...kept.situation, trains } };
    await askHost(page, 'keep.write', { kind: 'rehearsal', id: 'gone', value });
    await goTo(page, 'desk');
    await goTo(page, 'rehearsal');
    await tab(page, /Kept/).click();
    await button(page, 'Open from another railroad').click();
    await tab(page, /Trains/).click();
    expect(await row(page, 'No. 12').locator('[role="alert"]').textContent()).toContain('"B99"');
  });

  it('with the wish itself is proved: trains that lock each other are named with their blocks', async () => {
    const { page } = opened;
    await page.getByLabel('Begin anew from').selectOption('empty');
    for (const [name, at, cab, to] of [
      ['No. 3', 'e32 n1', '2', 'B1'],
      ['No. 7', 'e1 g1', '1', 'B1'],
    ] as const) {
      await button(page, `Put ${name} on`).click();
      await row(page, name).getByLabel(`${name} stands in`).selectOption(at);
      await row(page, name).getByLabel('on', { exact: true }).selectOption(cab);
      await row(page, name).getByLabel('to', { exact: true }).selectOption(to);
    }
    await button(page, 'Can I?').click();
    await page.getByText('Gridlock.').waitFor();
    await button(page, 'In which order?').click();
    await page.getByText('Impossible.').waitFor();
    expect(opened.complaints).toEqual([]);
  });
});
