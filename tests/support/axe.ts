/** What axe finds wrong in a part of the page: every rule once, and in the other themes what colours can make wrong. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { expect } from 'vitest';
import { THEME_NAMES } from '../../renderer/theme/themes.ts';
import { askHost } from './console-page.ts';

/** @param part a selector of what is looked at */
export async function expectNoAxeFaults(page: Page, part: string): Promise<void> {
  for (const [index, theme] of THEME_NAMES.entries()) {
    await askHost(page, 'settings.write', { theme });
    await page.locator(`:root[data-theme="${theme}"]`).waitFor();
    const builder = new AxeBuilder({ page }).include(part);
    const { violations } = await (index === 0 ? builder : builder.withRules('color-contrast')).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  }
}
