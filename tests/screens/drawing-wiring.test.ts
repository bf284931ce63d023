/** Wiring a railroad in the browser: by pointer alone and by keyboard alone, from bare track to the example's whole wiring. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { expectNoAxeFaults } from '../support/axe.ts';
import { canonicalRailroad } from '../support/canonical-railroad.ts';
import { askHost, type ConsolePage, goToDrawing, openConsolePage } from '../support/console-page.ts';
import { passingSidingExample } from '../support/example.ts';
import { keyboardHands, pointerHands } from '../support/hands.ts';
import { wireTheExample } from '../support/wire-example.ts';

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
  await askHost(page, 'settings.write', { lengths: 'metric' });
});
afterAll(() => opened.close());

/** The example's track and trains, with nothing that feeds it. */
const bareTrack = ({ commonBus: _, ...example }: RailroadDocument): RailroadDocument => ({
  ...example,
  supplies: [],
  throttles: [],
  selectors: [],
  blocks: [],
});

async function importAs(document: RailroadDocument): Promise<string> {
  const card = await askHost(page, 'railroads.import', {
    text: JSON.stringify(document),
    name: 'bare track',
  });
  return card.id;
}

/** The draft as the host has it, once it is kept. */
async function kept(id: string): Promise<RailroadDocument> {
  await page.getByText(/^kept \d\d:\d\d$/).waitFor();
  const { document } = await askHost(page, 'railroads.read', { id });
  return document as RailroadDocument;
}

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
const field = (name: string) => page.getByLabel(name, { exact: true });
const row = (id: string) => page.locator(`[data-thing="${id}"] > button`);

describe('the example is wired', () => {
  test.each(['pointer', 'keyboard'] as const)('by %s alone, from bare track', async (way) => {
    const id = await importAs(bareTrack(passingSidingExample));
    await goToDrawing(page, id, 'wiring');
    await button('A block with a selector on each').waitFor();
    const hands = way === 'pointer' ? pointerHands(page) : keyboardHands(page);
    await wireTheExample(page, hands);
    console.info(`the example wired by ${way}: ${hands.acts()} acts`);
    expect(canonicalRailroad(await kept(id))).toBe(canonicalRailroad(passingSidingExample));
    expect(hands.acts()).toBeLessThan(50);
  });

  test('all of it is taken back to the bare track, and done again, by the keys alone', async () => {
    const id = await importAs(bareTrack(passingSidingExample));
    await goToDrawing(page, id, 'wiring');
    await wireTheExample(page, pointerHands(page));
    const wired = await kept(id);
    await page.getByRole('heading', { name: 'Passing siding' }).click();
    const undo = page.getByRole('button', { name: /^Undo/ });
    while ((await undo.getAttribute('aria-disabled')) !== 'true') await page.keyboard.press('Control+Z');
    await page.getByText('4 pieces of track have no feeder.').waitFor({ state: 'detached' });
    await goToDrawing(page, id, 'wiring/blocks');
    await page.getByText('4 pieces of track have no feeder.').waitFor();
    const redo = page.getByRole('button', { name: /^Redo/ });
    while ((await redo.getAttribute('aria-disabled')) !== 'true') await page.keyboard.press('Control+Y');
    expect(await kept(id)).toEqual(wired);
  });
});

describe('on the Wiring sheet', () => {
  let id: string;
  beforeAll(async () => {
    id = await importAs(passingSidingExample);
  });

  test('a figure that is none is told beside its field, and the draft keeps what it had', async () => {
    await goToDrawing(page, id, 'wiring/power');
    await row('north').click();
    await field('Breaker (A)').fill('many');
    await page.getByText('Expected a number of amperes, more than 0 and at most 1000, not "many".').waitFor();
    await field('Breaker (A)').fill('12');
    await page.getByText('180 VA, 18 V, breaker 12 A').waitFor();
    expect((await kept(id)).supplies[0]?.breakerAmps).toBe(12);
  });

  test('wire that is too light is told at its block, and the button beside it mends it', async () => {
    await goToDrawing(page, id, 'wiring/blocks');
    await row('B1').click();
    await field('Gauge').selectOption('18');
    await page
      .getByText(/AWG 18 behind a breaker/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: /^Mend: AWG 14 for the feeder/ }).click();
    await page.getByText(/AWG 18 behind a breaker/).waitFor({ state: 'detached' });
    expect((await kept(id)).blocks[0]?.feeders[0]?.wire).toEqual({ awg: 14, run: 3600 });
  });

  test('a throttle that feeds a block cannot be taken out, and why is said', async () => {
    await goToDrawing(page, id, 'wiring/power');
    await row('3').click();
    await button('Take the throttle out').click();
    await page
      .getByText('East end is wired straight to it: give them another source first.')
      .first()
      .waitFor();
  });

  test('feeders that run the same way get one cable route in one act', async () => {
    await goToDrawing(page, id, 'wiring/return');
    await page.getByRole('checkbox', { name: /West end/ }).check();
    await page.getByRole('checkbox', { name: /East end/ }).check();
    await field('Way').fill('north duct');
    await button('Give it to 2 feeders').click();
    const { blocks } = await kept(id);
    expect(blocks.map(({ feeders }) => feeders[0]?.route)).toEqual([
      'north duct',
      undefined,
      undefined,
      'north duct',
    ]);
  });

  test.each(['blocks', 'dials', 'power', 'return'])(
    '%s has no fault that axe finds, in any theme',
    async (part) => {
      await goToDrawing(page, id, `wiring/${part}`);
      await page.locator('.wiring').waitFor();
      // The return has no rows that open.
      const first = page.locator('.wiring-row').first();
      if (part !== 'return' && (await first.getAttribute('aria-expanded')) === 'false') await first.click();
      await expectNoAxeFaults(page, '.wiring');
    },
  );

  test('complained of nothing', () => {
    expect(opened.complaints).toEqual([]);
  });
});
