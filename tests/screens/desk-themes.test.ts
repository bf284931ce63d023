/** The Desk with alarms standing, in each theme and size: zones in sight, targets, axe; and the pictures of the README. */
import { AxeBuilder } from '@axe-core/playwright';
import { describe, expect, it } from 'vitest';
import { askHost, openConsolePage } from '../support/console-page.ts';
import { pictureFile } from '../support/picture.ts';

describe.each(['dark', 'light', 'contrast'] as const)('the Desk in the %s theme', (theme) => {
  it.each([
    [1280, 800],
    [1920, 1080],
  ])(
    'at %i by %i keeps every zone in sight, no act under 44 px, and axe finds nothing',
    async (width, height) => {
      const { page, close } = await openConsolePage({ width, height });
      try {
        await askHost(page, 'settings.write', { theme });
        const [card] = await askHost(page, 'railroads.list', {});
        await askHost(page, 'evening.open', { railroad: card?.id ?? '', alone: false });
        const send = (...inputs: object[]) =>
          askHost(page, 'evening.send', { items: inputs.map((input) => ({ input })) as never });
        await send(
          { do: 'assign-cab', cab: '1', person: 'Avery' },
          { do: 'assign-cab', cab: '2', person: 'Blake' },
          { do: 'assign-cab', cab: '3', person: 'Kim' },
          { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' },
          { do: 'place-train', train: 't12', edge: 'e34', toward: 'g14', cab: '2' },
          { do: 'start' },
        );
        await send({ do: 'request-move', train: 't7', to: 'B8' });
        await send({ do: 'train-entered', train: 't12', block: 'B9' });
        await page.locator('[data-phase="running"]').waitFor();
        await page.locator('.desk-row[data-rank]').first().waitFor();
        await page.screenshot({ path: pictureFile(`desk-${theme}-${width}`) });
        for (const zone of ['status', 'board', 'band', 'cabs', 'next', 'dials', 'say', 'entry']) {
          const box = await page.locator(`[data-zone="${zone}"]`).first().boundingBox();
          expect(box, zone).not.toBeNull();
          expect((box?.y ?? -1) + (box?.height ?? 0), `${zone} ends on the screen`).toBeLessThanOrEqual(
            height + 1,
          );
        }
        const small = await page.locator('.act').evaluateAll((acts) =>
          acts
            .map((act) => act.getBoundingClientRect())
            .filter((box) => box.width > 0 && (box.width < 44 || box.height < 44))
            .map((box) => `${box.width}x${box.height}`),
        );
        expect(small).toEqual([]);
        const axe = await new AxeBuilder({ page }).analyze();
        expect(axe.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
      } finally {
        await close();
      }
    },
  );
});
