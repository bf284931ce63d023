/** The Rehearsal with a plan that was dragged into conflicts, in each theme and size: targets, axe, and pictures to be looked at. */
import { describe, expect, it } from 'vitest';
import { askHost } from '../support/console-page.ts';
import { pictureFile } from '../support/picture.ts';
import { axeFinds, looksWrong } from '../support/rehearsal-looks.ts';
import { openThreeTrains } from '../support/rehearsal-page.ts';

const SHEETS = ['Trains', 'Which way', 'In which order', 'Make it real'] as const;

describe.each([
  [1280, 800],
  [1920, 1080],
])('the Rehearsal at %i by %i', (width, height) => {
  it('has nothing under 44 px and nothing that axe finds, in any theme', async () => {
    const { page, close, complaints } = await openThreeTrains({ width, height });
    try {
      for (const [name, to] of [
        ['No. 3', 'B8'],
        ['No. 12', 'B10'],
        ['No. 24', 'B3'],
      ] as const)
        await page
          .locator('.rehearsal-train')
          .filter({ hasText: name })
          .getByLabel('to', { exact: true })
          .selectOption(to);
      await page.getByRole('button', { name: 'In which order?' }).click();
      await page.getByText(/arrivals sum to/).waitFor();
      await page.getByRole('button', { name: /^Stop, take the best/ }).click();
      await page.locator('.chart-start').nth(1).focus();
      await page.keyboard.press('Shift+ArrowLeft');
      await page.locator('.chart-conflict').first().waitFor();
      for (const theme of ['dark', 'light', 'contrast'] as const) {
        await askHost(page, 'settings.write', { theme });
        await page.locator(`html[data-theme="${theme}"]`).waitFor();
        for (const sheet of SHEETS) {
          await page.getByRole('tab', { name: sheet }).click();
          await page.screenshot({
            path: pictureFile(`rehearsal-${sheet.replaceAll(' ', '-')}-${theme}-${width}`),
          });
          expect(await looksWrong(page), `${sheet}, ${theme}`).toEqual([]);
          // The rules of axe look at colours and names, which are the same at both sizes: the small one, all themes for the chart.
          if (width > 1280 || (theme !== 'dark' && sheet !== 'In which order')) continue;
          expect(await axeFinds(page), `${sheet}, ${theme}`).toEqual([]);
        }
      }
      expect(complaints).toEqual([]);
    } finally {
      await close();
    }
  });
});
