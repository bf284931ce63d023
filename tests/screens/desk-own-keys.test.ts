/** Keys of the Desk that are locked and changed; and an evening alone, with one key where a crew needs words. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ConsolePage, goTo, openConsolePage } from '../support/console-page.ts';
import { entriesNow, grewBeyond, playedEvening } from '../support/desk-check.ts';
import { expectSays, MAKING_UP, openDemo, say, turnedClock, words } from '../support/desk-page.ts';

describe('the keys of the Desk', () => {
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800 });
    await openDemo(opened.page, false);
    for (const line of [...MAKING_UP, 'start']) await say(opened.page, line);
  });
  afterAll(() => opened.close());

  it('can be locked: nothing is typed and nothing done, but for CALL ALL STOP; the same key unlocks them', async () => {
    const { page } = opened;
    await page.keyboard.press('ScrollLock');
    await page.getByText('KEYS LOCKED').waitFor();
    const before = await entriesNow(page);
    await page.keyboard.type('7 to 4 over');
    await page.keyboard.press('Enter');
    await page.keyboard.press('F1');
    await page.keyboard.press('Shift+F8');
    expect(await page.locator('#entry-line').inputValue()).toBe('');
    await page.keyboard.press('Numpad9');
    await page.locator('[data-phase="stopped"]').waitFor();
    expect(await entriesNow(page), 'the stop alone').toBe(before + 1);
    await page.waitForTimeout(300);
    await page.keyboard.press('ScrollLock');
    await page.getByText('KEYS LOCKED').waitFor({ state: 'detached' });
    await say(page, 'resume');
  });

  it('can be changed: a letter and the key of another act are refused, with whose it is; the new key acts', async () => {
    const { page } = opened;
    await goTo(page, 'settings');
    const key = (name: string) => page.getByRole('button', { name, exact: true });
    await key('Next throw done, other key: Space').press('Enter');
    await page.keyboard.press('k');
    await page.getByText('k writes on the entry line, so it cannot be an act.').waitFor();
    await key('Next throw done, other key: Space').press('Enter');
    await page.keyboard.press('Pause');
    await page
      .getByText('Pause is "CALL ALL STOP": take it away there first. Nothing was changed.')
      .waitFor();
    await key('Next throw done, other key: Space').press('Enter');
    await page.keyboard.press('Shift+F8');
    await page.getByText('Shift+F8 is now "Next throw done".').waitFor();
    await goTo(page, 'desk');
    await page.locator('#entry-line').waitFor();
    await say(page, '7 to 4 over');
    await say(page, 'right');
    const before = await entriesNow(page);
    await page.keyboard.press('Shift+F8');
    expect(await grewBeyond(page, before)).toBe(true);
    const { events } = await playedEvening(page);
    expect(events.at(-1)?.input).toEqual({ do: 'turn-selector', selector: 'K4', position: '1' });
  });

  it('made the browser complain of nothing', () => {
    expect(opened.complaints).toEqual([]);
  });
});

describe('an evening alone', () => {
  const { clock, pass } = turnedClock();
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800, clock });
    await openDemo(opened.page, true);
  });
  afterAll(() => opened.close());

  it('sets all knobs for a display by one key', async () => {
    const { page } = opened;
    for (const line of ['c1 Avery', '7 at 3 facing 4 c1']) await say(page, line);
    const before = await entriesNow(page);
    await page.keyboard.press('F10');
    expect(await grewBeyond(page, before)).toBe(true);
    const { events } = await playedEvening(page);
    expect(events.at(-1)).toMatchObject({ input: { do: 'apply-setting' }, outcome: 'done' });
    await say(page, 'start');
  });

  it('needs no read-back and no words, and one key advances the train and sends it on', async () => {
    const { page } = opened;
    await say(page, '7 to 4 over');
    expect(await words(page, 'say')).not.toContain('“');
    for (const _ of [1, 2, 3]) {
      const before = await entriesNow(page);
      await page.keyboard.press('F1');
      expect(await grewBeyond(page, before)).toBe(true);
      await page.waitForTimeout(270);
    }
    const { events, state } = await playedEvening(page);
    expect(events.filter(({ input }) => input.do === 'acknowledge')).toEqual([]);
    expect(events.slice(-3).map(({ input }) => input.do)).toEqual(['advance', 'advance', 'request-move']);
    expect(state.alarms).toEqual([]);
    expect(await words(page, 'cabs')).not.toContain('Calls');
  });

  it('leaves a display running in its limits: hours later nothing is asked and nothing is wrong', async () => {
    const { page } = opened;
    for (const line of ['annul 7 the display begins', '7 stopped', '7 limits 4,5']) await say(page, line);
    pass(7200);
    await page.reload();
    await page.getByText('alone').first().waitFor();
    await expectSays(page, 'next', 'Nothing to throw.');
    expect(await words(page, 'cabs')).not.toContain('where?');
    await expectSays(page, 'status', 'no alarm');
  });
});
