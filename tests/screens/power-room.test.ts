/** The power room in a browser: as somebody uses it with a meter in hand. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { trainId } from '../../shared-model/ids.ts';
import { type SessionInput, sessionInput } from '../../shared-model/session/input.ts';
import { askHost, type ConsolePage, goTo, openConsolePage } from '../support/console-page.ts';

let opened: ConsolePage;
let page: Page;
beforeAll(async () => {
  opened = await openConsolePage();
  page = opened.page;
});
afterAll(() => opened.close());

/** Begins the guided check of the demo's two supplies and goes on to the readings. */
async function toTheReadings(): Promise<void> {
  await goTo(page, 'power-room/phase');
  await page.getByRole('button', { name: 'Check North bench against South bench', exact: true }).click();
  const read = page.getByRole('button', { name: 'I have read this' });
  if (await read.isVisible()) await read.click();
  await page.getByRole('checkbox').first().waitFor();
  for (const box of await page.getByRole('checkbox').all()) await box.check();
}

async function typeReadings(a: string, b: string, across: string): Promise<void> {
  await page.getByLabel('Volts of North bench').fill(a);
  await page.getByLabel('Volts of South bench').fill(b);
  await page.getByLabel('Volts across').fill(across);
}

const step = (name: string) =>
  page.getByRole('listitem').filter({ has: page.getByRole('heading', { name }) });
const verdict = () => step('What it says');

describe('the guided phase check', () => {
  test('gives no verdict before the cautions are read and everything is said to be set', async () => {
    await goTo(page, 'power-room/phase');
    await page.getByRole('button', { name: 'Check North bench against South bench', exact: true }).click();
    await step('Set it up').getByText('read the cautions first').waitFor();
    expect(await page.getByRole('checkbox').count()).toBe(0);
    await page.getByRole('button', { name: 'I have read this' }).click();
    await page.getByRole('checkbox', { name: 'Both handles are full up' }).waitFor();
    expect(await page.getByLabel('Volts across').count()).toBe(0);
    await page.getByRole('checkbox').first().check();
    expect(await step('Measure').textContent()).toContain('Without all of step 3');
  });

  test('keeps which cautions were shown', async () => {
    await goTo(page, 'power-room/cautions');
    await page.getByText(/^Acknowledged/).click();
    await page.getByText('prongs of an unplugged one').last().waitFor();
  });

  test('says a sentence for a reading that is none, and loses nothing', async () => {
    await toTheReadings();
    await typeReadings('18', 'eighteen', '0.4');
    await page
      .getByText('Expected a number of volts, at least 0 and at most 1000, not "eighteen".')
      .waitFor();
    expect(await verdict().textContent()).toContain('still to come');
    await goTo(page, 'power-room/wire');
    await goTo(page, 'power-room/phase');
    expect(await page.getByLabel('Volts of South bench').inputValue()).toBe('eighteen');
    await page.reload();
    expect(await page.getByLabel('Volts of North bench').inputValue()).toBe('18');
  });

  test.each([
    ['18', '18', '36', 'Reversed', 'Turn one plug over'],
    ['18', '17.6', '31', 'On different legs', 'No plug reversal cures that'],
    ['18', '18', '50', 'Inconsistent', 'commons are joined'],
    ['0.4', '18', '18', 'Unclear', 'Turn A up full'],
    ['18', '13', '5', 'In phase, not matched', 'Bring both handles to the same speed'],
  ])('of %s V, %s V and %s V across says: %s, with the remedy', async (a, b, across, says, remedy) => {
    await toTheReadings();
    await typeReadings(a, b, across);
    await verdict().getByText(says).first().waitFor();
    expect(await verdict().textContent()).toContain(remedy);
  });

  test('draws the phasors, and tells the bridging current against each breaker', async () => {
    await toTheReadings();
    await typeReadings('18', '18', '36');
    await page
      .getByRole('img', {
        name: /North bench 18 V, South bench 18 V, at an angle between 148 and 180 degrees/,
      })
      .waitFor();
    // 36 V over 0.25 + 0.25 ohm of the demo's supplies.
    await page.getByRole('row', { name: 'North bench 10 A 72 A 7.20 it opens' }).waitFor();
  });

  test('a kept check stands in the matrix with its time and volts', async () => {
    await toTheReadings();
    await typeReadings('18', '18', '0.4');
    await page.getByRole('button', { name: 'Keep this check' }).click();
    await page.getByText('Kept, for the next evening too: North bench with South bench. In phase').waitFor();
    const matrix = page.getByRole('table', { name: 'In phase with' });
    await matrix
      .getByText(/since \d\d:\d\d, 0.4 V across/)
      .first()
      .waitFor();
    expect(await matrix.textContent()).toContain('in phase');
    await page.getByText('No check is due.').waitFor();
  });
});

describe('the wire calculator', () => {
  test('answers with drop, short, breaker and the neighbouring gauges', async () => {
    await goTo(page, 'power-room/wire');
    // 25 ft of AWG 18 at 3 A and 18 V: 0.96 V, 5.32 % (tests/published).
    await page.getByLabel('Gauge').fill('18');
    await page.getByLabel('Breaker', { exact: false }).first().fill('10');
    await page.getByText('0.96 V', { exact: true }).first().waitFor();
    const words = await page.getByRole('region', { name: 'Wire' }).textContent();
    expect(words).toContain('5.3 % of 18 V');
    expect(words).toContain('7 A is the most for that gauge (NEC 240.4(D))');
    const table = page.getByRole('table', { name: 'At 25 ft and 3 A' });
    await table.getByRole('row', { name: 'AWG 14 0.38 V 2.1 %' }).waitFor();
    await page
      .getByRole('img', {
        name: /Drop in percent against the run, for AWG 14, AWG 16, AWG 18, AWG 20, AWG 22/,
      })
      .waitFor();
  });

  test.each([
    ['Gauge', '13.5', 'Expected a whole number of American Wire Gauge'],
    ['Run', '-3', 'Expected a number of feet, more than 0'],
    ['Current', '0', 'Expected a number of amperes, more than 0'],
    ['Volts of the supply', 'many', 'Expected a number of volts, more than 0'],
  ])('says a sentence for %s %s', async (label, text, says) => {
    await goTo(page, 'power-room/wire');
    const field = page.getByLabel(label).first();
    const before = await field.inputValue();
    await field.fill(text);
    await page.getByText(says).waitFor();
    await field.fill(before);
  });

  test('takes several pieces and a common bus', async () => {
    await goTo(page, 'power-room/wire');
    await page.getByLabel('Gauge').fill('14');
    await page.getByRole('button', { name: 'Another piece' }).click();
    await page.getByLabel('Run of piece 2, one way').fill('1');
    await page.getByText('25 ft of AWG 14, then 1 ft of AWG 20 out and as much back').waitFor();
    await page.getByLabel('Common bus').fill('12');
    await page.getByText('A bus needs a gauge and a run').waitFor();
    await page.getByLabel('Run of the bus').fill('30');
    await page.getByText('and back by a bus of 30 ft of AWG 12').waitFor();
    await page.getByRole('button', { name: 'Take out piece 2' }).click();
    await page.getByText('25 ft of AWG 14 out and back by a bus').waitFor();
    for (const label of ['Common bus', 'Run of the bus']) await page.getByLabel(label).fill('');
  });

  test('takes over the figures of a supply', async () => {
    await page.getByRole('button', { name: 'Figures of North bench' }).click();
    expect(await page.getByLabel('Breaker').first().inputValue()).toBe('10');
  });
});

test('an evening takes the check, and a replugged supply makes it lapse', async () => {
  const [railroad] = await askHost(page, 'railroads.list', {});
  await askHost(page, 'evening.open', { railroad: railroad?.id ?? '', alone: false });
  await goTo(page, 'power-room/phase');
  await page.getByText('the evening that goes on').waitFor();
  await toTheReadings();
  await typeReadings('18', '18', '0.3');
  await page.getByRole('button', { name: 'Put this check into the evening' }).click();
  const matrix = page.getByRole('table', { name: 'In phase with' });
  await matrix.getByText('0.3 V across').first().waitFor();
  await goTo(page, 'power-room/supplies');
  await page.getByRole('button', { name: 'South bench was replugged' }).click();
  await goTo(page, 'power-room/phase');
  await matrix.getByText('lapsed').first().waitFor();
});

test('loads are told live: what flows now, and the worst moment once it no longer does', async () => {
  const send = (...inputs: SessionInput[]) =>
    askHost(page, 'evening.send', { items: inputs.map((input) => ({ input })) });
  const train = trainId.parse('t7');
  await goTo(page, 'power-room/loads');
  const throttle = page.getByRole('row', { name: /^Throttle Cab 1/ });
  await throttle.getByText('none yet').waitFor();
  await send(
    sessionInput.parse({ do: 'assign-cab', cab: '1', person: 'Avery' }),
    sessionInput.parse({ do: 'place-train', train, edge: 'e6', toward: 'g4', cab: '1' }),
    sessionInput.parse({ do: 'stalled', train }),
  );
  await throttle.getByText(/^[\d.]+ A at \d\d:\d\d$/).waitFor();
  const [, flowing] = await throttle.getByRole('cell').allTextContents();
  await send(
    sessionInput.parse({ do: 'train-stopped', train }),
    sessionInput.parse({ do: 'take-off', train }),
  );
  await throttle.getByRole('cell', { name: '0 A', exact: true }).first().waitFor();
  expect((await throttle.getByRole('cell').allTextContents())[1]).toBe(flowing);
  await page.reload();
  await throttle.getByText(flowing ?? '').waitFor();
});

describe('everything in it', () => {
  test.each(['phase', 'supplies', 'wire', 'loads', 'cautions'])(
    '%s has no fault that axe finds, in any theme',
    async (section) => {
      await goTo(page, `power-room/${section}`);
      for (const theme of ['dark', 'light', 'contrast'] as const) {
        await askHost(page, 'settings.write', { theme });
        await page.locator(`:root[data-theme="${theme}"]`).waitFor();
        const { violations } = await new AxeBuilder({ page }).include('.power-room').analyze();
        expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
      }
    },
  );

  test('can be reached by Tab alone', async () => {
    await goTo(page, 'power-room/wire');
    await page.getByRole('link', { name: 'Wire' }).focus();
    const seen = new Set<string>();
    for (let press = 0; press < 15; press += 1) {
      await page.keyboard.press('Tab');
      seen.add(
        await page.evaluate(() => document.activeElement?.id || document.activeElement?.textContent || ''),
      );
    }
    // Loads and Cautions, the two fields of a piece and another piece, three of the way back, five more, and the figures of two supplies.
    expect(seen.size).toBe(15);
    expect([...seen].at(-1)).toBe('Figures of South bench');
  });

  test('complained of nothing', () => {
    expect(opened.complaints).toEqual([]);
  });
});
