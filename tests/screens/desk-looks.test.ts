/** The Desk at its fullest, in each theme and size: everything in its place, nothing clipped, covered or too small, letters as large as they must be. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAP_HEIGHT_RATIO, letterMm, pxPerMm } from '../../renderer/theme/letter-sizes.ts';
import { THEME_NAMES } from '../../renderer/theme/themes.ts';
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { CROWDED_INPUTS, crowdedDocument } from '../support/crowded-evening.ts';
import { pictureFile } from '../support/picture.ts';

const ZONES = ['status', 'board', 'band', 'cabs', 'next', 'dials', 'say', 'entry'] as const;
const SIZES = [
  [1280, 800],
  [1920, 1080],
] as const;

async function openCrowdedRailroad(page: Page): Promise<void> {
  const card = await askHost(page, 'railroads.import', {
    text: JSON.stringify(crowdedDocument()),
    name: 'crowded',
  });
  await askHost(page, 'evening.open', { railroad: card.id, alone: false });
}

const sendAll = async (page: Page, inputs: readonly object[]): Promise<void> => {
  await askHost(page, 'evening.send', { items: inputs.map((input) => ({ input })) as never });
};

type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
async function zoneBoxes(page: Page): Promise<Readonly<Record<string, Box>>> {
  const boxes: Record<string, Box> = {};
  for (const zone of ZONES) {
    const box = await page.locator(`[data-zone="${zone}"]`).first().boundingBox();
    if (box === null) throw new Error(`no zone ${zone}`);
    boxes[zone] = box;
  }
  return boxes;
}

/** Parts whose content is larger than they are: something of it is not seen. */
const clipped = (page: Page) =>
  page.evaluate(() => {
    const parts = document.querySelectorAll(
      '.desk-status, .desk-row, .desk-head, .desk-reason, .desk-strips, .desk-strip, .desk-strip-words, .desk-next, .desk-now, .desk-about, .desk-dials, .desk-dial, .desk-say p, .desk-entry, .act',
    );
    return [...parts]
      .filter((part) => part.scrollWidth > part.clientWidth + 1 || part.scrollHeight > part.clientHeight + 1)
      .map((part) => `${part.className}: ${part.textContent?.slice(0, 60)}`);
  });

/** Buttons that lie over each other. */
const overlapping = (page: Page) =>
  page.evaluate(() => {
    const boxes = [...document.querySelectorAll('.desk button, .desk input')]
      .filter((one) => one.closest('[data-zone="board"]') === null)
      .map((one) => ({ words: one.textContent ?? '', box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0);
    return boxes.flatMap((one, index) =>
      boxes
        .slice(index + 1)
        .filter(
          ({ box }) =>
            one.box.left < box.right - 1 &&
            box.left < one.box.right - 1 &&
            one.box.top < box.bottom - 1 &&
            box.top < one.box.bottom - 1,
        )
        .map((other) => `${one.words} over ${other.words}`),
    );
  });

const smallTargets = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('.desk button, .desk .act')]
      .filter((one) => one.closest('[data-zone="board"]') === null)
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ one, box }) => {
        const least = one.classList.contains('act') && one.dataset.kind !== 'calm' ? 56 : 44;
        return box.width > 0 && (box.width < least || box.height < least);
      })
      .map(({ one, box }) => `${one.textContent}: ${box.width} x ${box.height}`),
  );

/** Font sizes in CSS pixels of everything with words of its own in the zones, but the names of keys. */
const fontSizes = (page: Page, selector: string) =>
  page.evaluate(
    (wanted) =>
      [...document.querySelectorAll(wanted)]
        .filter((one) => one.closest('svg, kbd') === null)
        .filter((one) =>
          [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim() !== ''),
        )
        .map((one) => Number.parseFloat(getComputedStyle(one).fontSize)),
    selector,
  );

describe.each(SIZES)('the Desk at %i by %i', (width, height) => {
  let opened: ConsolePage;
  let quiet: Readonly<Record<string, Box>>;
  const perMm = pxPerMm({ screenInches: 24, screenPx: [width, height] });

  beforeAll(async () => {
    opened = await openConsolePage({ width, height });
    const { page } = opened;
    await openCrowdedRailroad(page);
    for (const inputs of CROWDED_INPUTS.slice(0, 3)) await sendAll(page, inputs);
    await page.locator('[data-phase="running"]').waitFor();
    quiet = await zoneBoxes(page);
    for (const inputs of CROWDED_INPUTS.slice(3)) await sendAll(page, inputs);
    await page.locator('[data-rank="danger"]').waitFor();
    await page.keyboard.type('freight 1202 to yard');
    await page.keyboard.press('Enter');
    await page.getByText('REFUSED').waitFor();
    await page.keyboard.type('12 to yard three by 7');
  });
  afterAll(() => opened.close());

  it('has every zone where it was before anything happened, and all of it in sight', async () => {
    const now = await zoneBoxes(opened.page);
    expect(now).toEqual(quiet);
    for (const zone of ZONES)
      expect((now[zone]?.y ?? 0) + (now[zone]?.height ?? 0)).toBeLessThanOrEqual(height + 1);
  });

  it('clips nothing, lays nothing over anything else, and has no target too small', async () => {
    expect(await clipped(opened.page)).toEqual([]);
    expect(await overlapping(opened.page)).toEqual([]);
    expect(await smallTargets(opened.page)).toEqual([]);
  });

  it('has letters as large as their distance wants: 20 minutes of arc at two metres and at the desk', async () => {
    const capMm = (px: number) => (px * CAP_HEIGHT_RATIO) / perMm;
    const far = await fontSizes(opened.page, '.desk-far');
    expect(far.length).toBeGreaterThanOrEqual(3);
    for (const px of far) expect(capMm(px)).toBeGreaterThanOrEqual(letterMm(20, 2000));
    const desk = await fontSizes(
      opened.page,
      '.desk-status *, .desk-reason, .desk-strip *, .desk-about *, .desk-dial[data-large], .desk-say p, .desk-hint span, .desk .act > span',
    );
    expect(desk.length).toBeGreaterThan(30);
    for (const px of desk) expect(capMm(px)).toBeGreaterThanOrEqual(letterMm(20, 700));
    const fine = await fontSizes(opened.page, '.desk *');
    for (const px of fine) expect(capMm(px)).toBeGreaterThanOrEqual(letterMm(16, 700));
  });

  it('leaves board, NEXT and CALL ALL STOP free while a drawer is open', async () => {
    const { page } = opened;
    await page.getByRole('button', { name: 'More', exact: true }).click();
    const covered = await page.evaluate(() =>
      ['[data-zone="board"]', '[data-zone="next"]', '.act[data-kind="stop"]'].filter((selector) => {
        const part = document.querySelector(selector);
        const box = part?.getBoundingClientRect();
        if (part === null || box === undefined) return true;
        const spots = [0.1, 0.5, 0.9].flatMap((across) =>
          [0.1, 0.5, 0.9].map((down) => [across, down] as const),
        );
        return spots.some(([across, down]) => {
          const top = document.elementFromPoint(box.left + box.width * across, box.top + box.height * down);
          return top === null || !part.contains(top);
        });
      }),
    );
    expect(covered).toEqual([]);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
  });

  it.each(THEME_NAMES)('is found whole by axe in the %s theme', async (theme) => {
    const { page } = opened;
    await askHost(page, 'settings.write', { theme });
    await page.locator(`[data-theme="${theme}"]`).waitFor();
    await page.screenshot({ path: pictureFile(`desk-crowded-${theme}-${width}`) });
    const axe = await new AxeBuilder({ page }).analyze();
    expect(axe.violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`))).toEqual([]);
  });
});
