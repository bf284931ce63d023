/** The drawing board in a browser: the track drawn from a blank sheet, wrong gaps found and mended, everything taken back. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import { blankSheet } from '../../shared-model/railroad/editing/draft.ts';
import { canonicalRailroad } from '../support/canonical-railroad.ts';
import { askHost, type ConsolePage, goTo, goToDrawing, openConsolePage } from '../support/console-page.ts';
import {
  dragOnSheet,
  drawByKeyboard,
  drawByPointer,
  openBlankSheet,
  pressOnSheet,
  sheet,
} from '../support/draw-example.ts';
import { passingSidingExample } from '../support/example.ts';
import { keyboardHands, pointerHands } from '../support/hands.ts';
import { wireTheExample } from '../support/wire-example.ts';

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
});
afterAll(() => opened.close());

/** The draft as it is kept, once it is. */
async function kept(id: string): Promise<RailroadDocument> {
  await page.locator('[data-kept="kept"]').waitFor();
  return railroadDocument.parse((await askHost(page, 'railroads.read', { id })).document);
}

/** Opens a copy of a railroad at one of its sheets. */
async function openCopy(document: RailroadDocument, at: string): Promise<string> {
  const { id } = await askHost(page, 'railroads.saveDraft', { id: null, name: document.name, document });
  await goToDrawing(page, id, at);
  await sheet(page).waitFor();
  return id;
}

const findings = () => page.getByRole('listitem');
const error = (code: string) => page.getByRole('listitem', { name: `error: ${code}` });
const mend = (code: string) =>
  error(code)
    .first()
    .getByRole('button', { name: /^Mend: / });

const { nodes, edges, trains } = passingSidingExample;
const unwired: RailroadDocument = { ...blankSheet('Passing siding'), nodes, edges, trains };

describe('the example passing siding, drawn from a blank sheet', () => {
  test.each([
    ['pointer', drawByPointer, pointerHands],
    ['keyboard', drawByKeyboard, keyboardHands],
  ] as const)(
    'and wired, by the %s alone, is the example but for ids and coordinates',
    async (_way, draw, handsOf) => {
      const id = await openBlankSheet(page);
      await draw(page);
      expect(canonicalRailroad(await kept(id))).toBe(canonicalRailroad(unwired));
      await goToDrawing(page, id, 'wiring');
      await wireTheExample(page, handsOf(page));
      await page.locator('[data-kept="keeping"]').waitFor({ state: 'detached' });
      expect(canonicalRailroad(await kept(id))).toBe(canonicalRailroad(passingSidingExample));
    },
  );

  test('is undone to the blank sheet and done again to the end', async () => {
    const id = await openBlankSheet(page);
    await dragOnSheet(page, [0, 0], [6, 0]);
    await dragOnSheet(page, [6, 0], [12, 0]);
    await dragOnSheet(page, [6, 0], [12, 3]);
    await pressOnSheet(page, [3, 0]);
    const drawn = await kept(id);
    await sheet(page).focus();
    for (let acts = 0; acts < 4; acts += 1) await page.keyboard.press('Control+z');
    await page.locator('[data-kept="keeping"]').waitFor();
    expect(await kept(id)).toEqual(blankSheet('Passing siding'));
    for (let acts = 0; acts < 4; acts += 1) await page.keyboard.press('Control+y');
    await page.locator('[data-kept="keeping"]').waitFor();
    expect(await kept(id)).toEqual(drawn);
  });
});

describe('what is drawn', () => {
  test('stays when the screen is left and come back to, with all that can be undone', async () => {
    const id = await openBlankSheet(page);
    await dragOnSheet(page, [0, 0], [6, 0]);
    await goTo(page, 'desk');
    await goToDrawing(page, id, 'track');
    await page.getByRole('button', { name: 'Undo: edge of 1800 mm' }).waitFor();
    expect((await kept(id)).edges).toHaveLength(1);
  });

  test('has lengths in trains, and a wrong one is told and changes nothing', async () => {
    await openCopy(unwired, 'track');
    await sheet(page).focus();
    await page.keyboard.press('a');
    await page.keyboard.press('l');
    await page.keyboard.type('long');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('expected a length').waitFor();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('2 trains');
    await page.keyboard.press('Enter');
    await page.getByText('8 edges, together 22400 mm').waitFor();
  });

  test('is carried, copied and put back by the keyboard', async () => {
    const id = await openCopy(unwired, 'track');
    await sheet(page).focus();
    await page.keyboard.press('a');
    await page.keyboard.press('c');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect((await kept(id)).edges).toHaveLength(16);
    await page.keyboard.press('m');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /^Undo: copy of/ }).waitFor();
  });

  test('is moved, bent and selected by the pointer in its other hand', async () => {
    const id = await openBlankSheet(page);
    await dragOnSheet(page, [0, 0], [6, 0]);
    await dragOnSheet(page, [10, 3], [14, 3]);
    await page.getByRole('radio', { name: 'arranges' }).check({ force: true });
    await dragOnSheet(page, [3, 0], [3, 2]);
    await dragOnSheet(page, [10, 3], [6, 0]);
    const { nodes: joined, edges: bent } = await kept(id);
    expect(joined.map(({ kind }) => kind).sort()).toEqual(['end', 'end', 'joint']);
    expect(bent[0]?.shape).toEqual([[3, 2]]);
    await dragOnSheet(page, [-1, -1], [15, 5]);
    await page.getByText('5 things are selected').waitFor();
  });

  test('is copied by the pointer: dragged with Ctrl, and carried off by its button', async () => {
    const id = await openBlankSheet(page);
    await dragOnSheet(page, [0, 0], [6, 0]);
    await page.getByRole('radio', { name: 'arranges' }).check({ force: true });
    await page.keyboard.down('Control');
    await dragOnSheet(page, [3, 0], [3, 3]);
    await page.keyboard.up('Control');
    const [, copy] = (await kept(id)).edges;
    expect(
      (await kept(id)).nodes.filter((node) => copy?.between.includes(node.id)).map(({ at }) => at),
    ).toEqual([
      [0, 3],
      [6, 3],
    ]);
    await page.getByRole('button', { name: 'Copy c' }).click();
    await dragOnSheet(page, [15, 6], [15, 8]);
    await page.locator('[data-kept="keeping"]').waitFor({ state: 'detached' });
    // The copy began two squares below what was copied.
    const rows = (await kept(id)).nodes.map(({ at: [, y] }) => y);
    expect([...new Set(rows)].sort()).toEqual([0, 3, 7]);
  });

  test('has a loop cut open and stretched', async () => {
    const id = await openBlankSheet(page);
    await dragOnSheet(page, [2, 0], [8, 0]);
    await dragOnSheet(page, [8, 0], [2, 3]);
    await dragOnSheet(page, [2, 3], [2, 0]);
    await pressOnSheet(page, [2, 3]);
    await page.keyboard.press('Escape');
    await sheet(page).focus();
    await page.keyboard.press('o');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Enter');
    const opened = (await kept(id)).nodes.filter(({ alsoAt }) => alsoAt !== undefined);
    expect(opened.map(({ at, alsoAt }) => [at, alsoAt])).toEqual([
      [
        [2, 3],
        [7, 4],
      ],
    ]);
  });
});

describe('errors made on purpose', () => {
  /** Opens the example at its findings, does something to it, and mends the one error that this makes. */
  async function mendsAfter(code: string, document: RailroadDocument): Promise<RailroadDocument> {
    const id = await openCopy(document, 'findings');
    await error(code).first().waitFor();
    await error(code).first().getByText(/\./).first().waitFor();
    const button = error(code)
      .first()
      .getByRole('button', { name: /^Mend: / });
    await button.click();
    await error(code).first().waitFor({ state: 'detached' });
    return kept(id);
  }

  test('a gap that is missing is seen at once, and cut by its button', async () => {
    const id = await openCopy(passingSidingExample, 'track');
    await sheet(page).focus();
    // From 0,0 to the gap at 6,2, which becomes a joint.
    await page.keyboard.press('Shift+ArrowRight');
    for (const key of ['ArrowRight', 'ArrowDown', 'ArrowDown', 'g']) await page.keyboard.press(key);
    await page.getByText('1 and 2: no gap between').waitFor();
    await page.getByRole('link', { name: 'Findings (1 wrong)' }).click();
    await error('two-sources').getByText('no gap parts them').waitFor();
    await mend('two-sources').click();
    await error('two-sources').waitFor({ state: 'detached' });
    expect((await kept(id)).nodes).toEqual(passingSidingExample.nodes);
  });

  test('track that nothing feeds is seen at once, and gets a block of its own', async () => {
    await openCopy(passingSidingExample, 'track');
    await page.getByRole('link', { name: 'Findings', exact: true }).waitFor();
    await sheet(page).focus();
    await page.keyboard.press('ArrowRight');
    for (const key of ['ArrowDown', 'ArrowDown', 'g']) await page.keyboard.press(key);
    await page.getByText('nothing feeds this').first().waitFor();
    await page.getByRole('link', { name: 'Findings (1 wrong)' }).click();
    await error('dead-track').getByText('this track is dead').waitFor();
    await mend('dead-track').click();
    await error('dead-track').waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'Findings', exact: true }).waitFor();
  });

  test('a block in pieces is made one', async () => {
    const split = {
      ...passingSidingExample,
      blocks: passingSidingExample.blocks
        .map((block) =>
          block.id === 'B2' ? { ...block, feeders: [...block.feeders, { edge: 'e5' as never }] } : block,
        )
        .filter(({ id }) => id !== 'B3'),
    };
    const mended = await mendsAfter('split-block', split);
    expect(mended.nodes.filter(({ kind }) => kind === 'gap')).toHaveLength(3);
  });

  test('a reference that leads nowhere is taken out', async () => {
    const broken = {
      ...passingSidingExample,
      places: [{ id: 'p1', name: 'Mill', order: 1, at: [{ edge: 'e99', toward: 'n1' }] } as never],
    };
    const mended = await mendsAfter('broken-reference', broken);
    expect(mended.places[0]?.at).toEqual([]);
  });

  test('stand beside the drawing with their places, and are shown on it', async () => {
    await openCopy(passingSidingExample, 'findings');
    await findings().first().waitFor();
    await page.getByRole('button', { name: 'Show finding 1 on the drawing' }).click();
    await page.locator('.drawing-chosen, .drawing-chosen-line[d^=M]').first().waitFor({ state: 'attached' });
  });
});

test.each([
  ['dark', 'track'],
  ['dark', 'trains'],
  ['light', 'track'],
  ['light', 'findings'],
  ['contrast', 'track'],
] as const)('in the %s theme, axe finds no fault in the sheet %s', async (theme, at) => {
  await askHost(page, 'settings.write', { theme });
  await openCopy(passingSidingExample, at);
  await sheet(page).focus();
  await page.keyboard.press('ArrowRight');
  const { violations } = await new AxeBuilder({ page }).include('.drawing-board').analyze();
  expect(violations.map(({ id: rule, nodes: where }) => [rule, where.map(({ html }) => html)])).toEqual([]);
});

test('nothing was complained of', () => {
  expect(opened.complaints).toEqual([]);
});
