/** The track and the trains of the example passing siding, drawn on a blank sheet in the browser: by the pointer alone, and by the keyboard alone. */
import type { Page } from 'playwright';
import { askHost, goToDrawing } from './console-page.ts';

type Square = readonly [x: number, y: number];

interface Piece {
  readonly from: Square;
  readonly to: Square;
  readonly mm: number;
}

const piece = (from: Square, to: Square, mm: number): Piece => ({ from, to, mm });

/** In the example's order, by which its blocks are numbered. */
const TRACK: readonly Piece[] = [
  piece([0, 2], [6, 2], 1800),
  piece([6, 2], [8, 2], 300),
  piece([8, 2], [20, 2], 2400),
  piece([8, 2], [10, 4], 250),
  piece([10, 4], [18, 4], 2000),
  piece([18, 4], [20, 2], 250),
  piece([20, 2], [22, 2], 300),
  piece([22, 2], [28, 2], 1800),
];
const GAPS: readonly Square[] = [
  [6, 2],
  [22, 2],
  [10, 4],
  [18, 4],
];
const TRAINS = [
  { name: 'No. 7', amps: '3.2' },
  { name: 'No. 12', amps: '2.8' },
] as const;

/** Pixels to a square of a blank sheet, which begins at an eighth of its width and a third of its height. */
const SQUARE_PX = 36;

export const sheet = (page: Page) => page.getByRole('application');

/** Opens a blank sheet, with lengths in millimetres. Answers its id in the library. */
export async function openBlankSheet(page: Page): Promise<string> {
  await askHost(page, 'settings.write', { lengths: 'metric' });
  const { id } = await askHost(page, 'railroads.saveDraft', {
    id: null,
    name: 'Passing siding',
    document: (await import('../../shared-model/railroad/editing/draft.ts')).blankSheet('Passing siding'),
  });
  await goToDrawing(page, id, 'track');
  await sheet(page).waitFor();
  return id;
}

/** Where a spot of a sheet that was blank when it was opened is on the screen. */
export async function onScreen(page: Page, [x, y]: Square): Promise<Square> {
  const box = await sheet(page).boundingBox();
  if (box === null) throw new Error('there is no sheet');
  return [
    box.x + Math.round(box.width / 8) + x * SQUARE_PX,
    box.y + Math.round(box.height / 3) + y * SQUARE_PX,
  ];
}

export async function dragOnSheet(page: Page, from: Square, to: Square): Promise<void> {
  const [a, b] = [await onScreen(page, from), await onScreen(page, to)];
  await page.mouse.move(...a);
  await page.mouse.down();
  await page.mouse.move((a[0] + b[0]) / 2, (a[1] + b[1]) / 2);
  await page.mouse.move(...b);
  await page.mouse.up();
}

export async function pressOnSheet(page: Page, spot: Square): Promise<void> {
  await page.mouse.click(...(await onScreen(page, spot)));
}

/** Drags for edges, presses for gaps; lengths are typed into the field beside the drawing. */
export async function drawByPointer(page: Page): Promise<void> {
  for (const { from, to, mm } of TRACK) {
    await dragOnSheet(page, from, to);
    await page.getByLabel(/^Length of e/).fill(String(mm));
  }
  for (const gap of GAPS) await pressOnSheet(page, gap);
  await page.getByRole('link', { name: 'Trains and places' }).click();
  for (const { name, amps } of TRAINS) {
    await page.getByRole('button', { name: 'Add a train' }).click();
    const train = page
      .getByRole('group')
      .filter({ has: page.getByLabel('Name of the train') })
      .last();
    await train.getByLabel('Draws (A)').fill(amps);
    await train.getByLabel('Length').fill('1400');
    await train.getByLabel('Name of the train').fill(name);
  }
}

/** The cursor taken from one square to another, by fives where it is far. */
export async function walk(page: Page, from: Square, to: Square): Promise<void> {
  for (const [axis, back, on] of [
    [0, 'ArrowLeft', 'ArrowRight'],
    [1, 'ArrowUp', 'ArrowDown'],
  ] as const) {
    const steps = to[axis] - from[axis];
    const key = steps < 0 ? back : on;
    for (let left = Math.abs(steps); left > 0; left -= left >= 5 ? 5 : 1)
      await page.keyboard.press(left >= 5 ? `Shift+${key}` : key);
  }
}

/** Goes to something by Tab, as somebody without a pointer does. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let left = 60; left > 0; left -= 1) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const focused = document.activeElement;
      // Past the last one the page itself has the focus, and begins again.
      if (focused === document.body) return '';
      const labels = focused instanceof HTMLInputElement ? [...(focused.labels ?? [])] : [];
      return [...labels.map((label) => label.textContent ?? ''), focused?.textContent ?? ''].join(' ');
    });
    if (at.includes(name)) return;
  }
  throw new Error(`${name} was not reached by Tab`);
}

/** Arrows for the cursor, letters for acts, digits for lengths. */
export async function drawByKeyboard(page: Page): Promise<void> {
  const { keyboard } = page;
  await sheet(page).focus();
  let at: Square = [0, 0];
  const goOn = async (to: Square) => {
    await walk(page, at, to);
    at = to;
  };
  let pen: Square | null = null;
  for (const { from, to, mm } of TRACK) {
    if (pen?.join() !== from.join()) {
      if (pen !== null) await keyboard.press('Escape');
      await goOn(from);
      await keyboard.press('d');
    }
    await goOn(to);
    await keyboard.press('d');
    await keyboard.type(String(mm));
    await keyboard.press('Enter');
    pen = to;
  }
  await keyboard.press('Escape');
  for (const gap of GAPS) {
    await goOn(gap);
    await keyboard.press('g');
  }
  await tabTo(page, 'Trains and places');
  await keyboard.press('Enter');
  await page.getByRole('button', { name: 'Add a train' }).waitFor();
  for (const { name, amps } of TRAINS) {
    await tabTo(page, 'Add a train');
    await keyboard.press('Enter');
    await page
      .getByLabel('Name of the train')
      .nth(TRAINS.findIndex((one) => one.name === name))
      .focus();
    await keyboard.press('Control+a');
    await keyboard.type(name);
    await tabTo(page, 'Length');
    await keyboard.press('Control+a');
    await keyboard.type('1400');
    await tabTo(page, 'Draws (A)');
    await keyboard.press('Control+a');
    await keyboard.type(amps);
    await keyboard.press('Tab');
  }
}
