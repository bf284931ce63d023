/** Help: reached by keyboard, searched, followed from topic to topic, read by axe in every theme. */
import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { THEME_NAMES } from '../../renderer/theme/themes.ts';
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { pictureFile } from '../support/picture.ts';

describe('the guide on the screen', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800 });
  });
  afterAll(() => opened.close());

  it('opens at what helps on the screen one comes from, and finds by words, by keyboard alone', async () => {
    const { page } = opened;
    await page.getByRole('link', { name: 'Power room' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'Help' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Power room', level: 2 }).waitFor();
    await page.getByLabel('Search the guide').focus();
    await page.keyboard.type('sweeps live');
    await page.getByRole('list', { name: 'Found' }).getByRole('link').first().focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Every refusal and alarm' }).waitFor();
    expect(await page.getByText('that handle to zero first').count()).toBe(1);
  });

  it('says when no topic has the words', async () => {
    const { page } = opened;
    await page.getByLabel('Search the guide').fill('zeppelin');
    await page.getByText('Nothing in the guide has these words').waitFor();
    await page.getByLabel('Search the guide').fill('');
  });

  it('shows the keys with the changes that the user made', async () => {
    const { page } = opened;
    await askHost(page, 'settings.write', { keys: { 'why.other': 'F10' } });
    await page.getByRole('link', { name: 'Keys of the Desk' }).click();
    const row = page.getByRole('row', { name: /Why: last refusal/ });
    await row.getByText('F10').waitFor();
    expect(await row.getByText('F9').count()).toBe(0);
  });

  it.each(THEME_NAMES)('is found whole by axe in the %s theme', async (theme) => {
    const { page } = opened;
    await askHost(page, 'settings.write', { theme });
    await page.locator(`[data-theme="${theme}"]`).waitFor();
    await page.goto(`${new URL(page.url()).origin}/#/help/first-evening`);
    await page.getByRole('heading', { name: 'A first evening' }).waitFor();
    await page.screenshot({ path: pictureFile(`help-${theme}-1280`) });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`))).toEqual([]);
  });
});
