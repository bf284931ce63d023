/** An owner's own railroad from the blank sheet: two loops with crossovers, a siding, a yard, eight selectors; drawn, wired, published, run. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fullAudit } from '../../shared-model/power/audit.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { askHost, type ConsolePage, goTo, openConsolePage } from '../support/console-page.ts';
import { dragOnSheet, openBlankSheet, pressOnSheet, sheet, walk } from '../support/draw-example.ts';
import { type Hands, keyboardHands, pointerHands } from '../support/hands.ts';

type Square = readonly [x: number, y: number];

/** The loops, each a long line whose two ends are joined. */
const LOOPS: readonly (readonly [Square, Square])[] = [
  [
    [0, 0],
    [26, 0],
  ],
  [
    [0, 4],
    [26, 4],
  ],
];
/** Corner to corner; an edge that begins or ends on another one makes a turnout there. */
const LINES: readonly (readonly Square[])[] = [
  [
    [4, 0],
    [8, 4],
  ],
  [
    [16, 4],
    [20, 0],
  ],
  [
    [8, 0],
    [10, -2],
    [14, -2],
    [16, 0],
  ],
  [
    [22, 4],
    [20, 6],
    [10, 6],
  ],
  [
    [16, 6],
    [14, 8],
    [8, 8],
  ],
];
const GAPS: readonly Square[] = [
  [0, 0],
  [6, 0],
  [18, 0],
  [0, 4],
  [12, 4],
  [20, 4],
  [6, 2],
  [18, 2],
  [10, -2],
  [14, -2],
  [20, 6],
];
const MOST_ACTS = 400;

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
});
afterAll(() => opened.close());

const button = (name: string) => page.getByRole('button', { name, exact: true });
const field = (name: string) => page.getByLabel(name, { exact: true });
const sheetNamed = (name: string) =>
  page.getByRole('navigation', { name: 'Sheets' }).getByRole('link', { name: new RegExp(`^${name}`) });
const part = (name: string) => page.getByRole('navigation', { name: 'Wiring' }).getByRole('link', { name });

/** Draws all the track with the pointer; answers how many acts it took. */
async function drawByPointer(): Promise<number> {
  let acts = 0;
  for (const [from, to] of LOOPS) {
    await dragOnSheet(page, from, to);
    await page.keyboard.down('Shift');
    await pressOnSheet(page, from);
    await pressOnSheet(page, to);
    await page.keyboard.up('Shift');
    await button('Join the two ends y').click();
    acts += 4;
  }
  for (const line of LINES)
    for (const [index, to] of line.slice(1).entries()) {
      await dragOnSheet(page, line[index] ?? to, to);
      acts += 1;
    }
  for (const gap of GAPS) {
    await pressOnSheet(page, gap);
    acts += 1;
  }
  return acts;
}

/** Draws all the track with arrows and letters; going somewhere is an act, and so is a letter. */
async function drawByKeyboard(): Promise<number> {
  let acts = 0;
  let at: Square = [0, 0];
  await sheet(page).focus();
  const goOn = async (to: Square) => {
    await walk(page, at, to);
    at = to;
    acts += 1;
  };
  const press = async (key: string) => {
    await page.keyboard.press(key);
    acts += 1;
  };
  for (const [from, to] of LOOPS) {
    await goOn(from);
    await press('d');
    await goOn(to);
    await press('d');
    await press('Escape');
    await press('s');
    await goOn(from);
    await press('S');
    await press('y');
  }
  for (const [start, ...more] of LINES) {
    if (start === undefined) continue;
    await goOn(start);
    await press('d');
    for (const to of more) {
      await goOn(to);
      await press('d');
    }
    await press('Escape');
  }
  for (const gap of GAPS) {
    await goOn(gap);
    await press('g');
  }
  return acts;
}

async function wire(hands: Hands): Promise<void> {
  await hands.press(sheetNamed('Wiring'));
  await hands.press(part('Supplies and throttles'));
  for (let throttles = 0; throttles < 3; throttles += 1) await hands.press(button('Another throttle'));
  await hands.press(part('Blocks'));
  await hands.press(button('A block with a selector on each'));
  for (let block = 1; block <= 8; block += 1) {
    await hands.press(page.locator(`[data-thing="B${block}"] > button`));
    await hands.type(field('Name'), `My block ${block}`);
  }
  await hands.press(part('Return and wire'));
  await hands.press(button('Enter it for all of them'));
  await hands.choose(field('Gauge of the bus'), 'AWG 12');
  await hands.type(field('Master switch'), 'by the door');
}

async function addTrains(hands: Hands): Promise<void> {
  await hands.press(sheetNamed('Trains and places'));
  for (const name of ['No. 7', 'No. 12']) {
    await hands.press(button('Add a train'));
    await hands.type(page.getByLabel('Name of the train').last(), name);
  }
}

test.each([
  ['pointer', drawByPointer, pointerHands],
  ['keyboard', drawByKeyboard, keyboardHands],
] as const)(
  'by %s alone takes fewer than 400 acts, and has no error in its audit',
  async (way, draw, handsOf) => {
    const id = await openBlankSheet(page);
    const hands = handsOf(page);
    const drawn = await draw();
    await wire(hands);
    await addTrains(hands);
    await hands.press(button('Publish…'));
    await hands.type(field('Note'), 'first');
    await hands.press(button('Publish'));
    await page.getByText('version 1').waitFor();
    const acts = drawn + hands.acts();
    console.info(
      `two loops, a siding, a yard and eight selectors from the blank sheet by ${way}: ${acts} acts`,
    );
    expect(acts).toBeLessThan(MOST_ACTS);
    const { document } = await askHost(page, 'railroads.read', { id });
    const railroad = document as RailroadDocument;
    expect(railroad.selectors).toHaveLength(8);
    expect(railroad.nodes.filter(({ kind, alsoAt }) => kind === 'gap' && alsoAt !== undefined)).toHaveLength(
      2,
    );
    expect(railroad.nodes.filter(({ kind }) => kind === 'turnout')).toHaveLength(8);
    expect(fullAudit(railroad).filter(({ severity }) => severity === 'error')).toEqual([]);
  },
);

test('an evening can be opened on it', async () => {
  const own = (await askHost(page, 'railroads.list', {})).find(({ name }) => name === 'Passing siding');
  await askHost(page, 'evening.open', { railroad: own?.id ?? '', alone: true });
  await goTo(page, 'desk');
  await page.locator('[data-phase="making-up"]').waitFor();
  expect(opened.complaints).toEqual([]);
});
