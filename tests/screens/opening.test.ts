/** Before an evening: the first start shows the demo railroad, ready to run; another railroad can be chosen. */
import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { THEME_NAMES } from '../../renderer/theme/themes.ts';
import LINE from '../../shared-model/demo/line-with-siding.railroad.json' with { type: 'json' };
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { pictureFile } from '../support/picture.ts';

describe('the Desk before an evening', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800 });
  });
  afterAll(() => opened.close());

  it('shows the track of the demo railroad, what it has, and the phase check that is due', async () => {
    const { page } = opened;
    await page.getByRole('table', { name: 'The track of Harbor and Quarry' }).waitFor({ state: 'attached' });
    const facts = page.locator('.opening-facts');
    await facts.getByText('18 blocks, 14 selectors, 12 turnouts, 4 cabs on 2 supplies, 6 trains.').waitFor();
    await facts.getByText('One pair of supplies that meet at a gap is not checked for tonight.').waitFor();
  });

  it.each(THEME_NAMES)('has nothing that axe finds in the %s theme', async (theme) => {
    const { page } = opened;
    await askHost(page, 'settings.write', { theme });
    await page.locator(`html[data-theme="${theme}"]`).waitFor();
    await page.screenshot({ path: pictureFile(`opening-${theme}-1280`) });
    const axe = await new AxeBuilder({ page }).analyze();
    expect(axe.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
  });

  it('offers another railroad once there is one, and opens the evening on the one that is in sight', async () => {
    const { page } = opened;
    await askHost(page, 'railroads.import', { text: JSON.stringify(LINE), name: 'line' });
    await page.getByRole('combobox', { name: 'Railroad' }).selectOption({ label: LINE.name });
    await page.getByRole('table', { name: `The track of ${LINE.name}` }).waitFor({ state: 'attached' });
    await page.getByRole('button', { name: 'Open alone' }).press('Enter');
    await page.locator('[data-phase="making-up"]').waitFor();
    const live = await askHost(page, 'evening.read', {});
    expect(live?.document.name).toBe(LINE.name);
    expect(live?.state.alone).toBe(true);
  });

  it('keeps the evening that ended in sight below the ways to open the next', async () => {
    const { page } = opened;
    await askHost(page, 'evening.send', { items: [{ input: { do: 'end-session' } }] });
    await page.locator('.opening-brief').waitFor();
    await page.screenshot({ path: pictureFile('opening-after-1280') });
    expect(await page.locator('[data-phase="ended"] [data-zone="board"]').count()).toBe(1);
    expect(await page.locator('.opening-brief [data-zone="board"]').count()).toBe(0);
    expect(opened.complaints).toEqual([]);
  });
});
