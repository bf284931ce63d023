/** Beginning a railroad, keeping it, bringing it in and out, its settings and its pages for the notebook; in the browser. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demoRailroad, exampleRailroads } from '../../shared-model/demo/railroad.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { FIRST_ANSWERS } from '../../shared-model/railroad/quick-start/answers.ts';
import { firstRailroad } from '../../shared-model/railroad/quick-start/first-railroad.ts';
import { expectNoAxeFaults } from '../support/axe.ts';
import { askHost, type ConsolePage, goTo, goToDrawing, openConsolePage } from '../support/console-page.ts';
import { passingSidingExample } from '../support/example.ts';
import { keyboardHands, pointerHands } from '../support/hands.ts';

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
});
afterAll(() => opened.close());

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
const field = (name: string) => page.getByLabel(name, { exact: true });
const row = (id: string) => page.locator(`[data-thing="${id}"] > button`);

/** The id of the railroad that the page has opened. */
async function openedId(): Promise<string> {
  await page.locator('.drawing-board-head').waitFor();
  return page.evaluate(() => window.location.hash.split('/')[2] ?? '');
}
const stored = async (id: string) =>
  (await askHost(page, 'railroads.read', { id })).document as RailroadDocument;
const file = (name: string, text: string) => ({
  name,
  mimeType: 'application/json',
  buffer: Buffer.from(text),
});

describe('the quick start', () => {
  test.each(['pointer', 'keyboard'] as const)('draws by %s alone what was answered', async (way) => {
    await goTo(page, 'drawing-board');
    const hands = way === 'pointer' ? pointerHands(page) : keyboardHands(page);
    const group = (name: string) => page.getByRole('radiogroup', { name });
    await hands.press(page.getByRole('link', { name: 'Quick start' }));
    await hands.type(field('What is it called?'), `Attic by ${way}`);
    await hands.pick(group('How many loops?'), '3');
    await hands.pick(group('How many tracks has the yard?'), '4');
    await hands.pick(group('How many throttles?'), '3');
    await hands.pick(group('On how many supplies?'), '2');
    await page.getByText('18 blocks, 14 selectors, 4 toggles').waitFor();
    // The board stays in sight, however far down the question is.
    expect(await page.locator('.shell-screen').evaluate(({ scrollTop }) => scrollTop)).toBe(0);
    await hands.press(button('Draw it'));
    const asked = { loops: 3, yardTracks: 4, throttles: 3, supplies: 2 };
    expect(await stored(await openedId())).toEqual(
      firstRailroad({ ...FIRST_ANSWERS, ...asked, name: `Attic by ${way}` }),
    );
  });

  test('has no fault that axe finds, in any theme', async () => {
    await goTo(page, 'drawing-board/quick-start');
    await button('Draw it').waitFor();
    await expectNoAxeFaults(page, '.quick-start-sheet');
  });
});

describe('beginning otherwise', () => {
  test.each(exampleRailroads.map((example) => [example.document.name, example.document] as const))(
    'a copy of %s is a draft of its own',
    async (name, document) => {
      await goTo(page, 'drawing-board');
      await button(`A copy of ${name}`).click();
      expect(await stored(await openedId())).toEqual(document);
    },
  );

  test('a blank sheet has nothing on it', async () => {
    await goTo(page, 'drawing-board');
    await button('Blank sheet').click();
    expect((await stored(await openedId())).edges).toEqual([]);
  });
});

describe('a file', () => {
  const wrong = JSON.stringify({
    ...passingSidingExample,
    scaleRatio: 0,
    trains: [{ id: 't1', name: '', length: 1000, amps: 1 }],
  });
  const list = () => askHost(page, 'railroads.list', {});

  test('that is wrong is told at every place that is, and nothing stored is touched', async () => {
    await goTo(page, 'drawing-board');
    const before = await list();
    await field('Railroad file, or drop it anywhere here').setInputFiles(file('attic.railroad.json', wrong));
    const told = page.getByRole('table', { name: 'Where it is wrong' });
    await told.getByRole('row', { name: '$.scaleRatio expected more than 0' }).waitFor();
    await told
      .getByRole('row', { name: '$.trains[0].name expected a name of at least one character' })
      .waitFor();
    expect(await list()).toEqual(before);
  });

  test('that is wrong can be kept as a draft: it is not drawn, never run, and goes out as it came', async () => {
    await button('Keep it as a broken draft').click();
    await page.getByText('This draft cannot be drawn').waitFor();
    const [card] = (await list()).filter(({ name }) => name === 'attic.railroad.json');
    if (card === undefined) throw new Error('it was not kept');
    expect(card).toMatchObject({ version: 0, hasDraft: true });
    const download = page.waitForEvent('download');
    await button('Export it as it is').click();
    expect(JSON.parse(readFileSync(await (await download).path(), 'utf8'))).toEqual(JSON.parse(wrong));
    await expect(askHost(page, 'evening.open', { railroad: card.id, alone: true })).rejects.toThrow(
      'only a draft yet',
    );
    await expect(askHost(page, 'railroads.publish', { id: card.id, note: '' })).rejects.toThrow(
      'not whole yet',
    );
  });

  test('that is dropped comes in, and its export is the same railroad', async () => {
    await goTo(page, 'drawing-board');
    await button('Blank sheet').waitFor();
    await page.evaluate(
      ([text]) => {
        const data = new DataTransfer();
        data.items.add(new File([text ?? ''], 'siding.railroad.json', { type: 'application/json' }));
        const place = document.querySelector('.start');
        place?.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
      },
      [JSON.stringify(passingSidingExample)],
    );
    await openedId();
    await goTo(page, 'drawing-board');
    const download = page.waitForEvent('download');
    await button('Export Passing siding').click();
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('passing-siding.railroad.json');
    expect(JSON.parse(readFileSync(await saved.path(), 'utf8'))).toEqual(passingSidingExample);
  });

  test('the list of railroads has no fault that axe finds, in any theme', async () => {
    await goTo(page, 'drawing-board');
    await field('Railroad file, or drop it anywhere here').setInputFiles(file('attic.railroad.json', wrong));
    await page.getByRole('table', { name: 'Where it is wrong' }).waitFor();
    await expectNoAxeFaults(page, '.start');
  });
});

describe('versions', () => {
  test('an older one is gone back to as a draft; what is published stays', async () => {
    const { id } = await askHost(page, 'railroads.import', {
      text: JSON.stringify({ ...passingSidingExample, name: 'Versions' }),
      name: 'versions',
    });
    const second = { ...passingSidingExample, name: 'Versions', masterSwitch: 'under the stairs' };
    await askHost(page, 'railroads.saveDraft', { id, name: 'Versions', document: second });
    await askHost(page, 'railroads.publish', { id, note: 'with its switch' });
    await goTo(page, 'drawing-board');
    await button('Versions of Versions').click();
    await page.getByText('with its switch').waitFor();
    await button('Go back to version 1 of Versions as a draft').click();
    await button('Throw the draft of Versions away').waitFor();
    expect(await stored(id)).not.toHaveProperty('masterSwitch');
    const published = await askHost(page, 'railroads.read', { id, version: 2 });
    expect(published.document).toHaveProperty('masterSwitch', 'under the stairs');
    await button('Throw the draft of Versions away').click();
    await button('Throw the draft of Versions away').waitFor({ state: 'detached' });
    expect(await stored(id)).toEqual(second);
  });
});

describe('settings of all knobs', () => {
  let id: string;
  beforeAll(async () => {
    const card = await askHost(page, 'railroads.import', {
      text: JSON.stringify(firstRailroad({ ...FIRST_ANSWERS, name: 'Two loops' })),
      name: 'two loops',
    });
    id = card.id;
    await askHost(page, 'evening.open', { railroad: id, alone: true });
    await goToDrawing(page, id, 'settings');
  });

  test('one for a display is offered, compared with the evening, and applied as orders', async () => {
    await button('Display: each of 2 loops on its own throttle').click();
    await page.getByText('Stands otherwise now (8)').waitFor();
    await page.getByRole('row', { name: 'K5 off 2' }).waitFor();
    await button('Apply it: 8 orders').click();
    await page.getByText('Everything stands as Display says.').waitFor();
    const live = await askHost(page, 'evening.read', {});
    expect(live?.state.selectors).toMatchObject({ K1: { position: '1' }, K8: { position: '2' } });
  });

  test('what is refused is said, and nothing of it is applied', async () => {
    await askHost(page, 'evening.send', {
      items: [{ input: { do: 'tag', thing: 'K2', why: 'loose', by: 'Ann' } }],
    });
    await field('Turnout T1').selectOption('reverse');
    await field('K2 Outer north').selectOption('2');
    await button('Apply it: 2 orders').click();
    await page.getByText(/^Nothing was applied\./).waitFor();
    const live = await askHost(page, 'evening.read', {});
    expect(live?.state.turnouts).toMatchObject({ T1: { position: 'normal' } });
  });

  test('the present state of the evening becomes one, by its name, and one is deleted', async () => {
    await button('As the evening stands').click();
    await page.getByText('Everything stands as As it stands says.').waitFor();
    await field('Name').fill('Club night');
    await page.getByText(/^kept \d\d:\d\d$/).waitFor();
    expect((await stored(id)).settings.map(({ name }) => name)).toEqual(['Display', 'Club night']);
    await expectNoAxeFaults(page, '.wiring');
    await button('Delete the setting').click();
    await row('setting2').waitFor({ state: 'detached' });
  });
});

describe('for the notebook', () => {
  /** Paper widths less two margins of 12 mm, at 96 px an inch. */
  const WIDTHS = [
    ['Letter', Math.floor(((8.5 * 25.4 - 24) / 25.4) * 96)],
    ['A4', Math.floor(((210 - 24) / 25.4) * 96)],
  ] as const;

  beforeAll(async () => {
    await page.setViewportSize({ width: 1280, height: 800 });
    const { id } = await askHost(page, 'railroads.import', {
      text: JSON.stringify(demoRailroad),
      name: 'demo',
    });
    await goToDrawing(page, id, 'print');
    await page.getByRole('heading', { name: /wiring schedule/ }).waitFor();
  });

  test('every feeder, dial, toggle, supply and turnout of the demo is there', async () => {
    const schedule = page.getByRole('region', { name: 'Wiring schedule' });
    const feeders = demoRailroad.blocks.reduce((sum, block) => sum + block.feeders.length, 0);
    const expectRows = (name: string | RegExp, rows: number) =>
      expect.poll(() => schedule.getByRole('table', { name }).locator('tbody tr').count()).toBe(rows);
    await expectRows(/^Feeders/, feeders);
    await expectRows('Supplies', demoRailroad.supplies.length);
    await expectRows('Phase record', 1);
    await expectRows('Toggles', demoRailroad.toggles.length);
    await expectRows('Turnouts', demoRailroad.nodes.filter(({ kind }) => kind === 'turnout').length);
    const dials = page.getByRole('region', { name: 'Dials' }).getByRole('img', { name: /^Dial of/ });
    await expect.poll(() => dials.count()).toBe(demoRailroad.selectors.length);
    await schedule.getByText('Never open a transformer or a power pack.').waitFor();
    await schedule
      .getByText(`Know the master switch (${demoRailroad.masterSwitch})`, { exact: false })
      .first()
      .waitFor();
  });

  test.each(WIDTHS)('on %s nothing is clipped or wider than the paper', async (_, width) => {
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width, height: 1000 });
    const wide = await page.evaluate(() => {
      const all = [...document.querySelectorAll('.notebook *')];
      return all
        .filter((part) => part.getBoundingClientRect().right > window.innerWidth + 1)
        .map((part) => `${part.tagName} ${part.textContent?.slice(0, 40)}`);
    });
    expect(wide).toEqual([]);
    const hidden = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('.notebook, .drawing-board-sheet, .shell-screen, body')]
        .filter((part) => getComputedStyle(part).overflowY !== 'visible')
        .map((part) => part.className),
    );
    expect(hidden).toEqual([]);
    await page.emulateMedia({ media: null });
  });

  test.each(['Letter', 'A4'] as const)('as a file for %s it has its pages', async (format) => {
    const pdf = await page.pdf({ format, preferCSSPageSize: false });
    const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(4);
    expect(pages).toBeLessThanOrEqual(9);
  });

  test('has no fault that axe finds, in any theme', async () => {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await expectNoAxeFaults(page, '.notebook');
  });
});

test('the console complained of nothing', () => {
  expect(opened.complaints).toEqual([]);
});
