/** What is called how, and what is pointed at: ids changed everywhere at once, blocks opened by their track, feeders, places and cable routes. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import { withId } from '../../shared-model/railroad/editing/rename-id.ts';
import { askHost, type ConsolePage, goToDrawing, openConsolePage } from '../support/console-page.ts';
import { sheet } from '../support/draw-example.ts';
import { passingSidingExample } from '../support/example.ts';

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
  await askHost(page, 'settings.write', { lengths: 'metric' });
});
afterAll(() => opened.close());

/** The example with a toggle, and with a setting that names all kinds of knobs. */
const railroad = railroadDocument.parse({
  ...passingSidingExample,
  toggles: [{ id: 'H1', name: 'Hold 1' }],
  blocks: passingSidingExample.blocks.map((block) =>
    block.id === 'B3' ? { ...block, source: { toggle: 'H1', from: 'B2' } } : block,
  ),
  settings: [
    { id: 'day', name: 'Day', selectors: { K1: '1' }, turnouts: { T1: 'normal' }, toggles: { H1: true } },
  ],
});

async function openAt(at: string): Promise<string> {
  const { id } = await askHost(page, 'railroads.saveDraft', {
    id: null,
    name: railroad.name,
    document: railroad,
  });
  await goToDrawing(page, id, at);
  await sheet(page).waitFor();
  return id;
}

async function kept(id: string): Promise<RailroadDocument> {
  await page.locator('[data-kept="kept"]').waitFor();
  return railroadDocument.parse((await askHost(page, 'railroads.read', { id })).document);
}

const row = (id: string) => page.locator(`[data-thing="${id}"] > button`);
const field = (name: string) => page.getByLabel(name, { exact: true });
const button = (name: string) => page.getByRole('button', { name, exact: true });

/** Presses an edge of the example on the drawing, away from its name. */
async function pressEdge(id: string): Promise<void> {
  const node = (name: string) => railroad.nodes.find((one) => one.id === name)?.at ?? [0, 0];
  const edge = railroad.edges.find((one) => one.id === id);
  if (edge === undefined) throw new Error(`no ${id}`);
  const [from, to] = [node(edge.between[0]), node(edge.between[1])];
  // The corners of all that is drawn are the westmost and the eastmost node and the main and the siding.
  const ends = await page.locator('.drawing-figure .drawing-end').all();
  const boxes = await Promise.all(ends.map((end) => end.boundingBox()));
  const xs = boxes.map((box) => (box?.x ?? 0) + (box?.width ?? 0) / 2).sort((a, b) => a - b);
  const [west = 0, east = 0] = xs;
  const y = (boxes[0]?.y ?? 0) + (boxes[0]?.height ?? 0) / 2;
  const px = (east - west) / (node('n2')[0] - node('n1')[0]);
  await page.mouse.click(
    west + ((from[0] + to[0]) / 2 - node('n1')[0]) * px,
    y + ((from[1] + to[1]) / 2 - node('n1')[1]) * px,
  );
}

test.each([
  ['blocks', 'B2', 'Main'],
  ['power', 'north', 'N'],
  ['power', '1', '11'],
  ['dials', 'K1', 'K11'],
  ['dials', 'H1', 'H7'],
  ['trains', 't7', 't70'],
] as const)('in %s, %s becomes %s wherever the railroad names it', async (part, from, to) => {
  const id = await openAt(part === 'trains' ? part : `wiring/${part}`);
  if (part !== 'trains') await row(from).click();
  const box = field(part === 'trains' ? 'Id of No. 7' : 'Id');
  await box.fill(to);
  await box.press('Enter');
  await page.getByRole('button', { name: `Undo: ${from} is ${to}` }).waitFor();
  expect(await kept(id)).toEqual(withId(railroad, from, to));
  // The keys stay in the field, which is the same thing's under another id.
  expect(await page.evaluate(() => document.activeElement?.closest('form')?.dataset.idOf)).toBe(to);
});

test('an id that something else has is refused with what has it, and nothing is changed', async () => {
  const id = await openAt('wiring/dials');
  await row('K1').click();
  await field('Id').fill('B2');
  await page.getByText('Not possible: B2 is in use already, among the blocks.').waitFor();
  await field('Id').press('Enter');
  await row('K2').focus();
  await page.getByText('Not possible: B2 is in use already, among the blocks.').waitFor();
  expect((await askHost(page, 'railroads.read', { id })).document).toEqual(railroad);
});

test('a block is opened by pressing its track, and says which track it really has', async () => {
  await openAt('wiring/blocks');
  await pressEdge('e5');
  await page
    .locator('[data-thing="B3"][data-open]')
    .getByText('e5: 2 m of track', { exact: false })
    .waitFor();
  await pressEdge('e8');
  await page.locator('[data-thing="B4"][data-open]').waitFor();
});

test('a feeder is put on the track that is pointed at, by pointer and by keyboard', async () => {
  const id = await openAt('wiring/blocks');
  await row('B2').click();
  await button('Point at it').click();
  await page
    .getByRole('status')
    .getByText('Point at the track that feeder 1 of Passing main ends on')
    .waitFor();
  await pressEdge('e7');
  expect((await kept(id)).blocks[1]?.feeders[0]?.edge).toBe('e7');

  await button('Point at it').press('Enter');
  await sheet(page).focus();
  // From where e7 was pressed, at 21,2, to the middle of e2 at 7,2.
  for (const key of ['Shift+ArrowLeft', 'Shift+ArrowLeft']) await page.keyboard.press(key);
  for (let step = 0; step < 4; step += 1) await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  await page.locator('[data-kept="keeping"]').waitFor();
  expect((await kept(id)).blocks[1]?.feeders[0]?.edge).toBe('e2');
});

test('a place stands where its track was pointed at, facing where a train can stop', async () => {
  const id = await openAt('trains');
  await button('Add a place').click();
  await field('Name of the place').fill('Mill');
  await button('Point at a track of Mill').click();
  await pressEdge('e8');
  expect((await kept(id)).places).toEqual([
    { id: 'p1', name: 'Mill', order: 1, at: [{ edge: 'e8', toward: 'g4' }] },
  ]);
});

test('feeders of one cable route are added up by it and by gauge in the schedule, with a label for each', async () => {
  const id = await openAt('wiring/return');
  await page.getByRole('checkbox', { name: /West end/ }).check();
  await page.getByRole('checkbox', { name: /East end/ }).check();
  await field('Way').fill('north duct');
  await button('Give it to 2 feeders').click();
  await goToDrawing(page, id, 'print');
  const schedule = page.getByRole('region', { name: 'Wiring schedule' });
  await schedule.getByText('north duct').first().waitFor();
  // 3.6 m and 5.4 m by the duct; 14.1 m of AWG 14 altogether.
  await schedule
    .getByRole('row', { name: /north duct 2 .*9 m/ })
    .first()
    .waitFor();
  await schedule
    .getByRole('row', { name: /14.*14\.1 m/ })
    .first()
    .waitFor();
  await page
    .getByRole('region', { name: /Labels/ })
    .getByText('West end')
    .first()
    .waitFor();
  await page.getByRole('img', { name: /plan/i }).first().waitFor();
});

test('nothing was complained of', () => {
  expect(opened.complaints).toEqual([]);
});
