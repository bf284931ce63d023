/** A railroad of 400 blocks and 12 cabs at the Desk: every zone keeps its place, the dial that is next is in sight, and zoomed the numbers are read. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { words } from '../support/desk-page.ts';
import { pictureFile } from '../support/picture.ts';
import { stationRailroad } from '../support/station-railroad.ts';

/** Nodes in a row of the drawing: the generator leaves them in one line, a hand would not. */
const IN_A_ROW = 60;
const ROWS_APART = 4;

function drawnInRows() {
  const document = stationRailroad(2, { blocks: 400, trains: 12, ring: false });
  return {
    ...document,
    nodes: document.nodes.map((node, index) => {
      const row = Math.floor(index / IN_A_ROW);
      const along = index % IN_A_ROW;
      return { ...node, at: [row % 2 === 0 ? along : IN_A_ROW - 1 - along, row * ROWS_APART] };
    }),
  };
}

const ZONES = ['status', 'board', 'band', 'cabs', 'next', 'dials', 'say', 'entry'] as const;

describe('a railroad of 400 blocks at the Desk', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800 });
    const { page } = opened;
    const document = drawnInRows();
    const card = await askHost(page, 'railroads.import', { text: JSON.stringify(document), name: 'large' });
    const last = document.edges.findLast(({ between }) =>
      between.every((node) =>
        ['gap', 'end'].includes(document.nodes.find(({ id }) => id === node)?.kind ?? ''),
      ),
    );
    await askHost(page, 'evening.open', { railroad: card.id, alone: false });
    const inputs = [
      { do: 'assign-cab', cab: '1', person: 'Avery' },
      { do: 'place-train', train: 't1', edge: last?.id, toward: last?.between[0], cab: '1' },
      { do: 'start' },
    ];
    await askHost(page, 'evening.send', { items: inputs.map((input) => ({ input })) as never });
    await page.locator('.desk[data-phase="running"]').waitFor();
  });
  afterAll(() => opened.close());

  /** Zones that are too low, out of sight, or over the one before; the frame takes its new size a moment after the window. */
  async function zonesAmiss(height: number): Promise<readonly string[]> {
    const amiss: string[] = [];
    let below = 0;
    for (const zone of ZONES) {
      const box = await opened.page.locator(`[data-zone="${zone}"]`).first().boundingBox();
      const [top, bottom] = [box?.y ?? 0, (box?.y ?? 0) + (box?.height ?? 0)];
      if (bottom - top <= 20) amiss.push(`${zone} is ${bottom - top} px high`);
      if (bottom > height + 1) amiss.push(`${zone} ends at ${bottom}`);
      if (zone !== 'next' && top < below - 1) amiss.push(`${zone} begins at ${top}, above ${below}`);
      if (zone !== 'cabs') below = bottom;
    }
    return amiss;
  }

  it.each([
    [1920, 1080],
    [1280, 800],
  ])('has every zone in sight at %i by %i, none over another', async (width, height) => {
    await opened.page.setViewportSize({ width, height });
    await expect.poll(() => zonesAmiss(height)).toEqual([]);
    await opened.page.screenshot({ path: pictureFile(`desk-large-${width}`) });
  });

  it('brings the dial that is next into sight among 400', async () => {
    const { page } = opened;
    await page.keyboard.press('Insert');
    await page.getByRole('button', { name: /right/ }).first().waitFor();
    await page.keyboard.press('Enter');
    const next = page.locator('.desk-dial[data-next]').first();
    await next.waitFor();
    expect(await words(page, 'next')).toMatch(/^[KT]/);
    const [dial, zone] = [await next.boundingBox(), await page.locator('[data-zone="dials"]').boundingBox()];
    expect(dial?.y).toBeGreaterThanOrEqual((zone?.y ?? 0) - 1);
    expect((dial?.y ?? 0) + (dial?.height ?? 0)).toBeLessThanOrEqual(
      (zone?.y ?? 0) + (zone?.height ?? 0) + 1,
    );
  });

  it('is zoomed until the block of the next act is read by its number, its train beside it', async () => {
    const { page } = opened;
    for (let press = 0; press < 5; press += 1)
      await page.getByRole('button', { name: 'Closer' }).press('Enter');
    const board = await page.locator('[data-zone="board"]').boundingBox();
    const sees = async (selector: string) => {
      const inSight = async () => {
        const box = await page.locator(selector).first().boundingBox();
        if (box === null || board === null) return false;
        return box.x >= board.x && box.x + box.width <= board.x + board.width;
      };
      await expect.poll(inSight, { message: selector }).toBe(true);
    };
    await sees('.board-train');
    await sees('.board-name[data-next]');
    await page.screenshot({ path: pictureFile('desk-large-zoomed') });
  });
});
