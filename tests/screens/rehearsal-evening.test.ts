/** The demo evening in mid-run, and a problem of it solved in the Rehearsal: three trains, one siding, one yard; by pointer, and by keyboard alone. */
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askHost, type ConsolePage, goTo } from '../support/console-page.ts';
import { crewGoesOn } from '../support/live-crew.ts';
import { openMidRun } from '../support/mid-run.ts';
import { pictureFile } from '../support/picture.ts';
import { conflictsShown, entriesOf, movesAsked, send } from '../support/rehearsal-page.ts';

/** No. 7 and No. 12 go round, No. 18 waits on the main and No. 41 in the siding, No. 3 in the yard. */
const MID_RUN = 620;
const WISHES = [
  ['No. 18', '1 Bay'],
  ['No. 12', '9 Orchard'],
  ['No. 3', '3 Depot Main'],
] as const;

/** What hands do with a screen. */
interface Hands {
  readonly press: (place: Locator) => Promise<void>;
  readonly choose: (list: Locator, says: string) => Promise<void>;
  readonly dragEarlier: (page: Page, start: Locator) => Promise<void>;
  readonly takeBack: (page: Page) => Promise<void>;
  readonly stop: (page: Page) => Promise<void>;
}

const pointer: Hands = {
  press: (place) => place.click(),
  choose: async (list, says) => void (await list.selectOption({ label: says })),
  dragEarlier: async (page, start) => {
    await start.scrollIntoViewIfNeeded();
    const box = await start.locator('.chart-reach').boundingBox();
    const [x, y] = [(box?.x ?? 0) + 22, (box?.y ?? 0) + 22];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 300, y, { steps: 4 });
    await page.mouse.up();
  },
  takeBack: (page) => page.getByRole('button', { name: /^Take back/ }).click(),
  stop: (page) => page.getByRole('button', { name: /^Stop, take the best/ }).click(),
};

/** That Tab leads to all of them is tried in `rehearsal.test.ts`. */
const keyboard: Hands = {
  press: async (place) => {
    await place.focus();
    await place.page().keyboard.press('Enter');
  },
  choose: async (list, says) => {
    await list.focus();
    await list.page().keyboard.type(says);
  },
  dragEarlier: async (page, start) => {
    await start.focus();
    for (let times = 0; times < 4; times += 1) await page.keyboard.press('Shift+ArrowLeft');
  },
  takeBack: async (page) => {
    // In a field that is typed in, the keys would be the field's.
    await page.getByRole('tab', { selected: true }).focus();
    await page.keyboard.press('Control+z');
  },
  stop: (page) => page.keyboard.press('Escape'),
};

describe.each([
  ['by pointer', pointer],
  ['by keyboard alone', keyboard],
])('an evening’s problem, %s', (name, hands) => {
  let opened: ConsolePage;
  const button = (says: string | RegExp) => opened.page.getByRole('button', { name: says }).first();
  const tab = (says: string | RegExp) => opened.page.getByRole('tab', { name: says });
  const row = (train: string) => opened.page.locator('.rehearsal-train').filter({ hasText: train });
  const board = (label: string) => opened.page.getByRole('group', { name: label, exact: true });
  const order = (train: string) =>
    opened.page
      .locator('.rehearsal-orders li')
      .filter({ hasText: new RegExp(`\\d:\\d\\d ${train}`) })
      .first();
  const boardsTable = () => opened.page.locator('[data-zone="board"] table').first().textContent();

  beforeAll(async () => {
    opened = await openMidRun(MID_RUN, { width: 1280, height: 800 });
    await send(opened.page, [
      { do: 'assign-cab', cab: '4', person: 'Noor' },
      { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.3 },
    ]);
    await goTo(opened.page, 'rehearsal');
    await row('No. 3').waitFor();
  });
  afterAll(() => opened.close());

  it('is forked in mid-run: a train that is on its way stands where its order takes it, and that is said', async () => {
    const { page } = opened;
    expect(await page.locator('.rehearsal-train').count()).toBe(5);
    expect(await row('No. 7').textContent()).toContain('No. 7 is on its way there by an order');
    expect(await row('No. 18').textContent()).not.toContain('is on its way');
  });

  it('says what is missing, and that a knob in the yard, which is off, is turned for the train there that is to go', async () => {
    const { page } = opened;
    expect(await page.getByText('Give a train somewhere to go first.').count()).toBe(1);
    for (const [train, to] of WISHES) await hands.choose(row(train).getByLabel('to', { exact: true }), to);
    await page.getByText(/^Turned in this rehearsal for the trains there: .*selector 12/).waitFor();
    await expect.poll(() => page.locator('.rehearsal-trains [role="alert"]').count()).toBe(0);
  });

  it('takes an act back', async () => {
    await hands.press(button('Take No. 41 out'));
    await expect.poll(() => row('No. 41').count()).toBe(0);
    await hands.takeBack(opened.page);
    await row('No. 41').waitFor();
    expect(await row('No. 3').getByLabel('to', { exact: true }).inputValue()).toBe('B3');
  });

  it('answers “Can I?” in sight, and draws the best plan so far until it is stopped', async () => {
    const { page } = opened;
    await hands.press(button('Can I?'));
    const safe = page.getByText('Safe.');
    await safe.waitFor();
    const [box, sheet] = [await safe.boundingBox(), await page.locator('.rehearsal-sheet').boundingBox()];
    expect(box?.y ?? 0).toBeGreaterThanOrEqual(sheet?.y ?? 0);
    await hands.press(button('In which order?'));
    await page.getByText(/^The best so far/).waitFor();
    expect(await page.locator('.chart-start').count()).toBe(0);
    await hands.stop(page);
    await page.locator('.chart-start').first().waitFor();
    expect(await conflictsShown(page)).toEqual({ count: 0, listed: 0 });
  });

  it('steps through it on the board, and drags a start into a conflict and back', async () => {
    const { page } = opened;
    const before = await boardsTable();
    await hands.press(button('To the end'));
    await expect.poll(boardsTable).not.toBe(before);
    await hands.dragEarlier(page, page.locator('.chart-start').last());
    await expect.poll(async () => (await conflictsShown(page)).count).toBeGreaterThan(0);
    const list = await page.locator('.rehearsal-conflicts').boundingBox();
    expect((list?.y ?? 0) + (list?.height ?? 0)).toBeLessThanOrEqual(800);
    expect(list?.height ?? 0).toBeGreaterThan(44);
    await page.screenshot({ path: pictureFile(`rehearsal-conflict-${name.replaceAll(' ', '-')}`) });
    await hands.takeBack(page);
    await expect.poll(() => conflictsShown(page)).toEqual({ count: 0, listed: 0 });
  });

  it('left nothing of all that in the log; made real, the board is the evening as it stands', async () => {
    const { page } = opened;
    const asked = (await movesAsked(page)).length;
    const entries = await entriesOf(page);
    await hands.press(tab('Make it real'));
    await board('Board, as the evening stands now').waitFor();
    expect(await boardsTable()).toMatch(/5 Mill: occupied, No. 7|5 Mill/);
    await hands.press(button('Make real all that can go now'));
    // No. 12's, and of No. 3's the piece that nobody has before it.
    await expect.poll(async () => (await movesAsked(page)).length).toBe(asked + 2);
    expect(await entriesOf(page)).toBe(entries + 2);
    for (const train of ['No. 12', 'No. 3'])
      await expect.poll(() => order(train).getAttribute('data-turn')).toBe('given');
    expect(await order('No. 18').textContent()).toContain('Not its turn until No. 7 has left 1 Bay');
  });

  it('is planned again from here when No. 7 does not come; what was made real before is kept', async () => {
    const { page } = opened;
    await crewGoesOn(page, ['t12']);
    await hands.press(button('Plan again from here'));
    await page.getByText(/^The best so far/).waitFor();
    await hands.stop(page);
    await page.locator('.chart-start').first().waitFor();
    expect(await conflictsShown(page)).toEqual({ count: 0, listed: 0 });
    expect((await askHost(page, 'keep.list', { kind: 'rehearsal' })).map(({ id }) => id)).toEqual([
      'Rehearsal 1',
    ]);
  });

  it('is finished order by order as the trains report, and held against what happened', async () => {
    const { page } = opened;
    await hands.press(tab('Make it real'));
    const all = button('Make real all that can go now');
    for (let rounds = 0; rounds < 20; rounds += 1) {
      if ((await page.getByText('Every order of it was made real.').count()) > 0) break;
      if ((await all.getAttribute('aria-disabled')) === null) await hands.press(all);
      await crewGoesOn(page, ['t7', 't12', 't18', 't3']);
    }
    await page.getByText('Every order of it was made real.').waitFor();
    for (let blocks = 0; blocks < 5; blocks += 1) await crewGoesOn(page, ['t12', 't18', 't3']);
    await hands.press(tab('What happened'));
    await page.getByText(/^(\d+) of \1 arrivals have happened/).waitFor();
    await page.getByText('Every block was had in the order planned.').waitFor();
    await page.screenshot({ path: pictureFile(`rehearsal-happened-${name.replaceAll(' ', '-')}`) });
    const evening = await askHost(page, 'evening.read', {});
    const at = (train: string) => evening?.state.trains[train as never]?.blocks[0];
    expect([at('t18'), at('t12'), at('t3')]).toEqual(['B1', 'B9', 'B3']);
    expect(opened.complaints).toEqual([]);
  });
});
