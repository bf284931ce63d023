/** An evening at the Desk by keyboard alone: every line typed, acts by keys, no pointer at all; the state in the end is the engine's own. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { eveningOf, newEvening, take } from '../../shared-model/session/evening.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';

/** Lines of the entry line, `[Key]` for a key alone. */
const EVENING: readonly string[] = [
  'c1 Avery',
  'c2 Blake',
  'c3 Kim',
  '7 stands in 3 c1 toward 4',
  '12 stands in 7 c2',
  'setting all off',
  'phase north south 18 18 0.3',
  'new 88 guest 900 2.5',
  'k1 is 1',
  'start',
  '7 to 4 over',
  '[NumpadEnter]',
  '[Numpad0]',
  '[Numpad0]',
  '[Numpad1]',
  '12 to 3',
  '[Numpad1]',
  '7 clear 3',
  '7 stopped',
  'c3 calls',
  'c1 zero',
  'tag k16 loose knob',
  'untag k16',
  '7 ends quarry',
  '12 derailed',
  '12 rerailed',
  '7 is empty',
  'trip north',
  'reset north',
  '12 was in 7',
  'replug south',
  'note quiet so far',
  't5 r',
  't5 is n',
  'h1 is on',
  'h1 off',
  'k9 is 2',
  'k9 off',
  'clock 4 6:30',
  'break tea',
  'resume',
  '12 limits 7',
  'right',
  '12 done limits at 7',
  '12 off',
  'c3 nobody',
  'stop child on the track',
  'resume',
  'end',
];

async function press(page: Page, line: string): Promise<void> {
  const key = /^\[(.+)\]$/.exec(line)?.[1];
  if (key === undefined) {
    await page.keyboard.type(line);
    await page.keyboard.press('Enter');
  } else await page.keyboard.press(key);
  await page.waitForTimeout(300);
}

describe('an evening at the Desk by keyboard alone', () => {
  let console_: ConsolePage;
  const entries: number[] = [];

  beforeAll(async () => {
    console_ = await openConsolePage();
    const { page } = console_;
    await page.getByRole('button', { name: 'Open with a crew' }).first().waitFor();
    for (let tries = 0; tries < 30; tries += 1) {
      await page.keyboard.press('Tab');
      const name = await page.evaluate(() => document.activeElement?.textContent ?? '');
      if (name.includes('Open with a crew')) break;
    }
    await page.keyboard.press('Enter');
    await page.locator('#entry-line').waitFor();
    await page.locator('[data-phase="making-up"]').waitFor();
    for (const line of EVENING) {
      await press(page, line);
      const live = await askHost(page, 'evening.read', {});
      entries.push(live?.state.entries ?? 0);
    }
  });
  afterAll(() => console_.close());

  it('takes every line: each makes at least one entry', () => {
    const silent = EVENING.filter(
      (_, index) => index > 0 && (entries[index] ?? 0) <= (entries[index - 1] ?? 0),
    );
    expect(silent).toEqual([]);
  });

  it('ends in the state that the engine gives for the same inputs, folded anew', async () => {
    const { page } = console_;
    const live = await askHost(page, 'evening.read', {});
    if (live === null) throw new Error('no evening');
    const events = await askHost(page, 'evenings.events', { id: live.id, from: 1, to: live.state.entries });
    const read = await askHost(page, 'evenings.read', { id: live.id });
    const railroad = indexRailroad(read.document);
    let evening = { ...newEvening(railroad), initial: read.initial, state: read.initial };
    for (const { at, input } of events) evening = { ...take(evening, { at, input }).evening };
    expect(stateAnswer(railroad, evening.state)).toEqual(stateAnswer(railroad, live.state));
    expect(eveningOf(railroad, read.initial, events).state).toEqual(live.state);
    expect(new Set(events.map(({ input }) => input.do)).size).toBeGreaterThan(28);
    expect(live.state.phase).toBe('ended');
  });

  it('complains of nothing in the console of the browser', () => {
    expect(console_.complaints).toEqual([]);
  });
});

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
        await page.locator('.desk-alarm').first().waitFor();
        await page.screenshot({ path: `docs/pictures/desk-${theme}-${width}.png` });
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
