/** The Logbook over the demo evening: found, replayed, charted, printed, carried out and in, deleted and restored; by keyboard alone and by pointer. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askHost, type ConsolePage, goTo } from '../support/console-page.ts';
import { DEMO_INPUTS } from '../support/demo-log.ts';
import { openLogbookPage } from '../support/demo-page.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const ENTRIES = DEMO_INPUTS.length;

/** Moves the focus with Tab until it is on something of that name, and presses Enter; a control that Tab does not reach fails the test. */
async function tabTo(page: Page, name: RegExp, key = 'Enter'): Promise<void> {
  for (let step = 0; step < 120; step += 1) {
    await page.keyboard.press('Tab');
    const said = await page.evaluate(() => {
      const at = document.activeElement;
      return at?.getAttribute('aria-label') ?? at?.textContent ?? '';
    });
    if (name.test(said)) return page.keyboard.press(key);
  }
  throw new Error(`Tab does not reach ${name}`);
}

const openDemo = async (page: Page, part = '') => {
  await goTo(page, `logbook/1${part}`);
  await page.getByText(/waited longest/).waitFor();
};

describe('the Logbook', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openLogbookPage({ width: 1280, height: 800 });
    opened.page.setDefaultTimeout(60_000);
  });
  afterAll(async () => {
    expect(opened.complaints).toEqual([]);
    await opened.close();
  });

  it('says who waited longest and why as soon as an evening is opened, by keyboard alone', async () => {
    const { page } = opened;
    await tabTo(page, /^Demo evening$/);
    const line = page.locator('.evening-headline');
    await line.waitFor();
    expect(await line.textContent()).toMatch(
      /^No\. 41 \(Ada, then Kim\) waited longest: .* block 4, which No\. 7 had, /,
    );
    expect(await line.textContent()).toMatch(/The bottleneck is block 4/);
    // The second press shows it: the train asks, in the replay.
    await tabTo(page, /^See it in the replay/);
    await page.locator('.replay-head', { hasText: /entry \d\d+ of/ }).waitFor();
    await page.locator('.replay-strips', { hasText: /No\. 41.*asks|asks.*No\. 41/ }).waitFor();
  });

  it('replays by keyboard alone: a step, the next refusal or alarm, the end; the words follow, and nothing can be ordered', async () => {
    const { page } = opened;
    await openDemo(page);
    const says = page.locator('.replay-head p').first();
    const slider = page.getByRole('slider');
    await slider.focus();
    await page.keyboard.press('Home');
    await page.getByText('before entry 1', { exact: false }).first().waitFor();
    await page.keyboard.press('ArrowRight');
    await page
      .getByText(new RegExp(`^entry 1 of ${ENTRIES}`))
      .first()
      .waitFor();
    await page.keyboard.press('n');
    await page.locator('.replay-entries [aria-current] strong', { hasText: /REFUSED|ALARM/ }).waitFor();
    await page.keyboard.press('End');
    await page.getByText(new RegExp(`^entry ${ENTRIES} of ${ENTRIES}.*Session ended`)).waitFor();
    expect(await says.textContent()).toContain('Session ended');
    expect(await page.getByRole('heading', { name: 'Replay, not live' }).count()).toBe(1);
    expect(await page.getByRole('button', { name: /Call stop|Grant|Done|CALL ALL STOP/ }).count()).toBe(0);
  });

  it('goes by pointer from a row behind a chart to the replay of that moment, with the dials and cabs as they were', async () => {
    const { page } = opened;
    await openDemo(page, '/charts');
    const figure = page.getByRole('figure', { name: 'Who waited for what' });
    await figure.getByRole('button', { name: /Table of/ }).click();
    await figure
      .getByRole('link', { name: /block 4/ })
      .first()
      .click();
    await page
      .getByText(new RegExp(`^entry \\d\\d+ of ${ENTRIES}`))
      .first()
      .waitFor();
    await page.locator('.replay-strips', { hasText: 'No. 41' }).waitFor();
    await page.locator('.replay-dials', { hasText: '4:1' }).waitFor();
  });

  it.each(['SVG', 'PNG', 'CSV'])('saves a chart as %s', async (form) => {
    const { page } = opened;
    await openDemo(page, '/charts');
    const figure = page.getByRole('figure', { name: 'Who owned which block' });
    const saved = page.waitForEvent('download');
    await figure.getByRole('button', { name: `Save as ${form}` }).click();
    const bytes = readFileSync(await (await saved).path());
    const begins = { SVG: '<svg xmlns', PNG: '\u0089PNG', CSV: 'block,state,cab,train' }[form] ?? '';
    expect(bytes.subarray(0, begins.length).toString('latin1')).toBe(begins);
    if (form !== 'PNG') expect(bytes.toString('utf8')).toContain('No. 7');
  });

  it('has the train sheet with what was written in beside it, also on paper, where no control is', async () => {
    const { page } = opened;
    await openDemo(page, '/sheet');
    await page.getByText('Write in place').click();
    await page.getByRole('textbox', { name: 'Place' }).fill('The old shed');
    await page.getByRole('button', { name: 'Keep these' }).click();
    await page.getByText('Kept.').waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByText('The old shed').first().isVisible()).toBe(true);
    expect(await page.locator('.sheet caption', { hasText: 'Trains at reporting points' }).isVisible()).toBe(
      true,
    );
    expect(await page.locator('.logbook .act:visible, .shell-head:visible').count()).toBe(0);
    await page.emulateMedia({ media: 'screen' });
  });

  it('shows distances in the unit that the user set', async () => {
    const { page } = opened;
    await openDemo(page, '/figures');
    await page.getByText('scale miles by blocks reported').first().waitFor();
    await askHost(page, 'settings.write', { lengths: 'metric' });
    await page.getByText('scale km by blocks reported').first().waitFor();
    await askHost(page, 'settings.write', { lengths: 'imperial' });
  });

  it('names, searches and puts away by keyboard alone; backs up and restores', async () => {
    const { page } = opened;
    await goTo(page, 'logbook');
    await tabTo(page, /Name and note of Demo evening/);
    await page.getByRole('textbox', { name: 'Note', exact: true }).fill('with the guest engine');
    await tabTo(page, /^Keep$/);
    await page.getByRole('cell', { name: 'with the guest engine' }).waitFor();
    await page.getByRole('textbox', { name: /Search/ }).fill('nothing like it');
    await page.getByText('None that matches.').waitFor();
    await page.getByRole('textbox', { name: /Search/ }).fill('guest');
    await page.getByRole('link', { name: 'Demo evening' }).waitFor();

    await page.getByRole('button', { name: 'Backups …' }).click();
    await page.getByRole('button', { name: 'Back up now' }).click();
    await page.getByRole('button', { name: /^Restore from/ }).click();
    await page.getByRole('button', { name: /sure$/ }).click();
    await page.getByText('Everything in this backup is in the log already.').waitFor();
    await page.getByRole('button', { name: 'Close' }).click();
    await tabTo(page, /Put away: Demo evening/);
    await page.getByText('None that matches.').waitFor();
    await askHost(page, 'evenings.update', { id: '1', archived: false });
    // The list is read anew when somebody comes back to it.
    await goTo(page, 'help');
  });

  it('asks before it restores with the focus on No, and gives the focus back; says when each backup was made', async () => {
    const { page } = opened;
    await goTo(page, 'logbook');
    await page.getByRole('button', { name: 'Backups …' }).press('Enter');
    const focused = () => page.evaluate(() => document.activeElement?.textContent ?? '');
    await page
      .getByRole('button', { name: /^Restore from/ })
      .first()
      .press('Enter');
    expect(await focused()).toBe('No');
    await page.keyboard.press('Enter');
    expect(await focused()).toMatch(/^Restore …/);
    const made = page.getByRole('rowheader').first();
    expect(await made.textContent()).toMatch(/^\d{4}-\d\d-\d\d \d\d:\d\d$/);
    await page.keyboard.press('Escape');
  });

  it('keeps the column heads of a long table in sight, below the ways to the parts of the evening', async () => {
    const { page } = opened;
    await openDemo(page, '/sheet');
    const table = page.getByRole('table', { name: 'Trains at reporting points' });
    await table.getByRole('row').nth(30).scrollIntoViewIfNeeded();
    await page.locator('.logbook').evaluate((scroller) => scroller.scrollBy(0, 400));
    const [head, ways] = [table.locator('thead th').first(), page.locator('.logbook-nav')];
    await expect.poll(async () => (await table.boundingBox())?.y ?? 0).toBeLessThan(0);
    const [top, bottom] = [(await head.boundingBox())?.y ?? 0, await ways.boundingBox()];
    expect(Math.abs(top - ((bottom?.y ?? 0) + (bottom?.height ?? 0)))).toBeLessThanOrEqual(1);
  });

  it.each(['dark', 'light', 'contrast'] as const)(
    'is found without fault by axe in the %s theme',
    async (theme) => {
      const { page } = opened;
      await askHost(page, 'settings.write', { theme });
      for (const part of ['', '/1', '/1/charts', '/1/figures', '/1/sheet']) {
        await goTo(page, `logbook${part}`);
        await page.getByText(part === '' ? /of \d+ evenings/ : /waited longest/).waitFor();
        const axe = await new AxeBuilder({ page }).analyze();
        expect(axe.violations.map(({ id, nodes }) => `${part} ${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
      }
      const small = await page
        .locator('.logbook .act, .logbook .logbook-open')
        .evaluateAll((acts) =>
          acts.map((act) => act.getBoundingClientRect().height).filter((height) => height > 0 && height < 44),
        );
      expect(small).toEqual([]);
    },
  );

  it('carries an evening out, refuses its file once it was changed and says where, deletes it asked twice, and takes the file back', async () => {
    const { page } = opened;
    await openDemo(page, '/sheet');
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the whole evening as a file' }).click();
    const text = readFileSync(await (await saved).path(), 'utf8');
    await page.getByRole('button', { name: 'Delete …' }).click();
    const sure = page.getByRole('button', { name: 'Delete for good' });
    expect(await sure.getAttribute('aria-disabled')).toBe('true');
    await page.getByRole('textbox', { name: /^The name/ }).fill('Demo evening');
    await sure.click();
    await page.getByText('No evening in the log yet').waitFor();

    const folder = temporaryFolder();
    const changed = join(folder, 'changed.json');
    writeFileSync(changed, text.replace('"at":4', '"at":5'));
    await page.getByLabel('Evening file').setInputFiles(changed);
    await page
      .getByRole('alert')
      .filter({ hasText: /was not brought in: \$\.entries\[1\]/ })
      .waitFor();
    const sound = join(folder, 'sound.json');
    writeFileSync(sound, text);
    await page.getByLabel('Evening file').setInputFiles(sound);
    await page.getByRole('link', { name: 'Demo evening' }).waitFor();
  });

  it('follows what another window does: a note, putting away, a name, an evening deleted and one brought in', async () => {
    const { page } = opened;
    const [card] = await askHost(page, 'evenings.list', {});
    const id = card?.id ?? '';
    const { text } = await askHost(page, 'evenings.export', { id });
    await goTo(page, 'logbook');
    await page.getByRole('link', { name: 'Demo evening' }).waitFor();
    await askHost(page, 'evenings.update', { id, note: 'written elsewhere' });
    await page.getByRole('cell', { name: 'written elsewhere' }).waitFor();
    await askHost(page, 'evenings.update', { id, archived: true });
    await page.getByText('None that matches.').waitFor();
    await askHost(page, 'evenings.update', { id, archived: false });
    await page.getByRole('link', { name: 'Demo evening' }).click();
    await page.getByText(/waited longest/).waitFor();
    await askHost(page, 'evenings.update', { id, name: 'Named elsewhere' });
    await page.locator('.evening-head', { hasText: 'Named elsewhere' }).waitFor();
    await askHost(page, 'evenings.remove', { id, confirm: 'Named elsewhere' });
    await page.getByText('It is no longer in the log.').waitFor();
    await goTo(page, 'logbook');
    await page.getByText('No evening in the log yet').waitFor();
    await askHost(page, 'evenings.import', { text });
    await page.getByRole('link', { name: 'Demo evening' }).waitFor();
  });

  it('follows another window that restores, opens an evening and ends it', async () => {
    const { page } = opened;
    const rows = page.getByRole('row');
    const [card] = await askHost(page, 'evenings.list', {});
    await askHost(page, 'log.backup', {});
    await askHost(page, 'evenings.remove', { id: card?.id ?? '', confirm: 'Demo evening' });
    await page.getByText('No evening in the log yet').waitFor();
    const [backup] = await askHost(page, 'log.backups', {});
    await askHost(page, 'log.restore', { file: backup?.file ?? '' });
    await page.getByRole('link', { name: 'Demo evening' }).waitFor();
    const [railroad] = await askHost(page, 'railroads.list', {});
    await askHost(page, 'evening.open', { railroad: railroad?.id ?? '', alone: true });
    await page.getByText('2 of 2 evenings').waitFor();
    const open = rows.nth(1).getByRole('cell').nth(2);
    expect(await open.textContent()).toBe('1');
    await askHost(page, 'evening.send', { items: [{ input: { do: 'end-session' } }] });
    await expect.poll(() => open.textContent()).toBe('2');
  });
});
