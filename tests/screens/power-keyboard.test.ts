/** From making up an evening to a kept phase check, by keyboard alone: what is due, one key to do it, the guided check to its verdict. */
import type { Locator } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';

/** More than any screen here has to be gone through. */
const MOST_TABS = 120;

let opened: ConsolePage;
beforeAll(async () => {
  opened = await openConsolePage({ width: 1280, height: 800 });
});
afterAll(() => opened.close());

/** Goes on by Tab until something has the focus. */
async function tabTo(wanted: Locator): Promise<void> {
  await wanted.first().waitFor();
  for (let press = 0; press < MOST_TABS; press += 1) {
    if (await wanted.first().evaluate((element) => element === document.activeElement)) return;
    await opened.page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not lead to ${wanted}`);
}

describe('a phase check that is due when an evening is made up', () => {
  test('is told, and one key leads to it', async () => {
    const { page } = opened;
    const [railroad] = await askHost(page, 'railroads.list', {});
    await askHost(page, 'evening.open', { railroad: railroad?.id ?? '', alone: false });
    await page.getByText('North bench and South bench: not measured.').waitFor();
    await page.keyboard.press('F7');
    await page.getByText('the evening that goes on').waitFor();
    expect(page.url()).toContain('#/power-room/phase');
  });

  test('is led through to its verdict and put into the evening without the pointer', async () => {
    const { page } = opened;
    await tabTo(page.getByRole('button', { name: 'Check North bench against South bench', exact: true }));
    await page.keyboard.press('Enter');
    await tabTo(page.getByRole('button', { name: 'I have read this' }));
    await page.keyboard.press('Enter');
    const boxes = page.getByRole('checkbox');
    await boxes.first().waitFor();
    for (let index = 0; index < (await boxes.count()); index += 1) {
      await tabTo(boxes.nth(index));
      await page.keyboard.press('Space');
    }
    for (const [label, volts] of [
      ['Volts of North bench', '18'],
      ['Volts of South bench', '18'],
      ['Volts across', '0.4'],
    ] as const) {
      await tabTo(page.getByLabel(label));
      await page.keyboard.type(volts);
    }
    await tabTo(page.getByRole('button', { name: 'Put this check into the evening' }));
    await page.keyboard.press('Enter');
    await page.getByRole('table', { name: 'In phase with' }).getByText('0.4 V across').first().waitFor();
  });

  test('is due no longer, back at the Desk', async () => {
    const { page } = opened;
    await tabTo(page.getByRole('link', { name: 'Desk' }));
    await page.keyboard.press('Enter');
    await page.getByText('The supplies that meet are in phase, or known not to be.').waitFor();
    expect(await page.getByText('not measured').count()).toBe(0);
    expect(opened.complaints).toEqual([]);
  });
});

describe('the audit beside the drawing', () => {
  const findings = () => opened.page.locator('.drawing-board-findings');

  test('knows the checks of the evening, good ones and bad ones', async () => {
    const { page } = opened;
    const [railroad] = await askHost(page, 'railroads.list', {});
    await page.evaluate((id) => {
      window.location.hash = `#/drawing-board/${id}/findings`;
    }, railroad?.id ?? '');
    await findings().waitFor();
    expect(await findings().getByText('no valid phase check says').count()).toBe(0);
    const measured = {
      do: 'phase-measured',
      a: 'north',
      b: 'south',
      voltsA: 18,
      voltsB: 18,
      voltsAcross: 36,
    };
    await askHost(page, 'evening.send', { items: [{ input: measured }] as never });
    // NEM 609, section 6.1, is the reason that the remedy gives.
    await findings().getByText('NEM 609').first().waitFor();
    expect(await findings().getByText('no valid phase check says').count()).toBe(0);
  });

  test('says that a check is wanting once a supply was replugged', async () => {
    const { page } = opened;
    const replugged = { do: 'supply-replugged', supply: 'south' };
    await askHost(page, 'evening.send', { items: [{ input: replugged }] as never });
    await findings().getByText('no valid phase check says').first().waitFor();
    expect(await findings().getByText('NEM 609').count()).toBe(0);
  });
});
