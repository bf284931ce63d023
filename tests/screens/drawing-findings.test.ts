/** Every code of the audit made on purpose and opened in the browser: its words, its place, its button, and its way back. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fullAudit } from '../../shared-model/power/audit.ts';
import { CHECK_KIND, plateOf } from '../../shared-model/session/kept-checks.ts';
import { askHost, type ConsolePage, goToDrawing, openConsolePage } from '../support/console-page.ts';
import { DAMAGED, type DamagedRailroad } from '../support/damaged-railroads.ts';

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
});
afterAll(() => opened.close());

/** Opens a damaged railroad at its findings, with the phase checks that hold on it. */
async function openDamaged({ code, document, checks }: DamagedRailroad): Promise<void> {
  const { id } = await askHost(page, 'railroads.saveDraft', { id: null, name: code, document });
  const [north, south] = document.supplies;
  if (north === undefined || south === undefined) throw new Error('the example has two supplies');
  for (const check of checks)
    await askHost(page, 'keep.write', {
      kind: CHECK_KIND,
      id: `${code} ${id}`,
      value: { railroad: id, ...check, plates: [plateOf(north), plateOf(south)] },
    });
  await goToDrawing(page, id, 'findings');
  await page.getByRole('application').waitFor();
}

/** Findings that have a place on the drawing; the others are about throttles and trains. */
const withoutPlace = new Set(['overload', 'shared-return']);

test.each(DAMAGED.map((damage) => [damage.code, damage] as const))(
  '%s is seen with its place and what to do, and mended where there is a button for it',
  async (code, damage) => {
    const finding = fullAudit(damage.document, damage.checks).find(
      (one) =>
        one.code === code &&
        one.severity === damage.severity &&
        damage.about.every((id) => one.about.includes(id)),
    );
    if (finding === undefined) throw new Error(`the damage does not make ${code}`);
    await openDamaged(damage);
    const item = page
      .getByRole('listitem', { name: `${damage.severity}: ${code}` })
      .filter({ hasText: finding.says });
    await item.getByText(finding.remedy, { exact: true }).waitFor();

    if (!withoutPlace.has(code)) {
      await item.getByRole('button', { name: /^Show finding \d+ on the drawing$/ }).click();
      await page
        .locator('.drawing-chosen, .drawing-chosen-line[d^=M]')
        .first()
        .waitFor({ state: 'attached' });
    }

    const mend = item.getByRole('button', { name: /^Mend: / });
    expect(await mend.count()).toBe(damage.mends ? 1 : 0);
    if (!damage.mends) return;
    await mend.click();
    await item.waitFor({ state: 'detached' });
    await page.keyboard.press('Control+z');
    await item.waitFor();
  },
);

test('supplies whose phase is unknown are measured from their finding', async () => {
  const unknown = DAMAGED.find(({ code }) => code === 'phase-unknown');
  if (unknown === undefined) throw new Error('no such damage');
  await openDamaged(unknown);
  await page.getByRole('link', { name: 'Measure the two supplies' }).first().click();
  await page.getByRole('heading', { name: /phase/i }).first().waitFor();
});

test('nothing was complained of', () => {
  expect(opened.complaints).toEqual([]);
});
