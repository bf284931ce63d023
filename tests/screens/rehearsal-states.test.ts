/** The Rehearsal in all its other states, in the smallest window of the desktop and with twenty-four trains: nothing too small, nothing cut. */
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { askHost, goTo, openConsolePage } from '../support/console-page.ts';
import { crowdedRehearsal } from '../support/crowded-rehearsal.ts';
import { pictureFile } from '../support/picture.ts';
import { axeFinds, looksWrong } from '../support/rehearsal-looks.ts';
import { openThreeTrains } from '../support/rehearsal-page.ts';

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first();
const tab = (page: Page, name: RegExp) => page.getByRole('tab', { name });
const row = (page: Page, name: string) => page.locator('.rehearsal-train').filter({ hasText: name });

/** Puts a train on in a rehearsal. */
async function putOn(page: Page, name: string, at: string, cab: string, to: string): Promise<void> {
  await button(page, `Put ${name} on`).click();
  await row(page, name).getByLabel(`${name} stands in`).selectOption(at);
  await row(page, name).getByLabel('on', { exact: true }).selectOption(cab);
  await row(page, name).getByLabel('to', { exact: true }).selectOption(to);
}

type Theme = 'dark' | 'light' | 'contrast';

/** Looks at a state in a theme: a picture of it, and what is measured. */
async function look(page: Page, state: string, theme: Theme): Promise<void> {
  await askHost(page, 'settings.write', { theme });
  await page.locator(`html[data-theme="${theme}"]`).waitFor();
  await page.screenshot({ path: pictureFile(`rehearsal-${state}-${theme}`) });
  expect(await looksWrong(page), `${state}, ${theme}`).toEqual([]);
}

async function lookWithAxe(page: Page, state: string, theme: Theme): Promise<void> {
  await look(page, state, theme);
  expect(await axeFinds(page), `${state}, ${theme}`).toEqual([]);
}

describe('the Rehearsal in a window of 1024 by 640', () => {
  it('shows what is wrong, gridlock, what is impossible, what is proven and the count of trains whole', async () => {
    const { page, close, complaints } = await openThreeTrains({ width: 1024, height: 640 });
    try {
      await page.getByLabel('Begin anew from').selectOption('empty');
      await look(page, 'empty', 'dark');
      await putOn(page, 'No. 41', 'e50 g22', '1', 'B1');
      const wrong = await row(page, 'No. 41').locator('[role="alert"]').textContent();
      expect(wrong).toMatch(/^No. 41 does not fit there: it is 5′ 11″ long/);
      await lookWithAxe(page, 'wrong', 'light');
      await button(page, 'Take No. 41 out').click();
      await putOn(page, 'No. 3', 'e32 n1', '2', 'B1');
      await putOn(page, 'No. 7', 'e1 g1', '1', 'B1');
      await button(page, 'Can I?').click();
      await page.getByText('Gridlock.').waitFor();
      await lookWithAxe(page, 'gridlock', 'contrast');
      await button(page, 'In which order?').click();
      await page.getByText('Impossible.').waitFor();
      await look(page, 'impossible', 'dark');
      await page.getByLabel('Begin anew from').selectOption('empty');
      await putOn(page, 'No. 3', 'e11 g1', '1', 'B1');
      await button(page, 'In which order?').click();
      await page.getByText('Found, and no plan takes less.').waitFor();
      await button(page, 'Without the board').click();
      await page.getByRole('listbox').focus();
      await lookWithAxe(page, 'proven', 'light');
      await tab(page, /How many/).click();
      await button(page, 'How many trains?').click();
      await page.getByText(/can keep moving$/).waitFor();
      await look(page, 'counted', 'contrast');
      expect(complaints).toEqual([]);
    } finally {
      await close();
    }
  });
});

describe('the Rehearsal with twenty-four trains and long names', () => {
  it('keeps everything whole: trains, chart, table, orders, ways, what is kept', async () => {
    const { page, close, complaints } = await openConsolePage({ width: 1280, height: 800 });
    try {
      const value = crowdedRehearsal();
      await askHost(page, 'keep.write', { kind: 'rehearsal', id: value.name, value });
      await goTo(page, 'rehearsal');
      await tab(page, /Kept/).click();
      await look(page, 'kept-long', 'dark');
      await button(page, `Open ${value.name}`).click();
      await page.locator('.chart-start').first().waitFor();
      for (const [state, sheet] of [
        ['many-trains', /^Trains/],
        ['many-orders', /^Make it real/],
        ['many-ways', /^Which way/],
        ['many-chart', /^In which order/],
      ] as const) {
        await tab(page, sheet).click();
        await page.screenshot({ path: pictureFile(`rehearsal-${state}`) });
        expect(await looksWrong(page), state).toEqual([]);
      }
      expect(complaints).toEqual([]);
    } finally {
      await close();
    }
  });
});
