/** The wiring of the example, entered in the browser as its owner does. */
import type { Page } from 'playwright';
import type { Hands } from './hands.ts';

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const field = (page: Page, name: string) => page.getByLabel(name, { exact: true });
const row = (page: Page, id: string) => page.locator(`[data-thing="${id}"] > button`);

const NAMES = ['West end', 'Passing main', 'Siding', 'East end'];
const RUNS = ['3.6', '2.4', '2.7', '5.4'];

async function enterPower(page: Page, hands: Hands): Promise<void> {
  await hands.press(button(page, 'Another throttle'));
  await hands.press(button(page, 'Another throttle'));
  await hands.press(row(page, 'S1'));
  await hands.type(field(page, 'Name'), 'North bench');
  await hands.type(field(page, 'Impedance (ohm)'), '0.2');
  await hands.press(button(page, 'Another supply'));
  await hands.press(row(page, 'S2'));
  await hands.type(field(page, 'Name'), 'South bench');
  await hands.press(button(page, 'Another throttle'));
}

async function enterBlocks(page: Page, hands: Hands): Promise<void> {
  await hands.press(button(page, 'A block with a selector on each'));
  for (const [index, name] of NAMES.entries()) {
    await hands.press(row(page, `B${index + 1}`));
    await hands.type(field(page, 'Name'), name);
    if (name === 'East end') {
      await hands.pick(page.getByRole('radiogroup', { name: 'Fed by' }), 'Straight to a throttle');
      await hands.choose(field(page, 'Throttle'), '3');
    }
    await hands.choose(field(page, 'Gauge'), 'AWG 14');
    await hands.type(field(page, 'Run (m)'), RUNS[index] ?? '');
  }
}

/** Enters the whole wiring of the example on its track, from the Wiring sheet; lengths have to be metric. */
export async function wireTheExample(page: Page, hands: Hands): Promise<void> {
  const part = (name: string) => page.getByRole('navigation', { name: 'Wiring' }).getByRole('link', { name });
  await hands.press(part('Supplies and throttles'));
  await enterPower(page, hands);
  await hands.press(part('Blocks'));
  await enterBlocks(page, hands);
  await hands.press(part('Dials'));
  await hands.press(row(page, 'K3'));
  await hands.choose(field(page, 'Position 4'), 'not wired');
  await hands.press(part('Return and wire'));
  await hands.choose(field(page, 'Gauge of the bus'), 'AWG 12');
  await hands.type(field(page, 'Run of the bus (m)'), '6');
}
