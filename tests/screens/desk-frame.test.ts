/** The frame of an evening at the Desk: railroad time, a break with its roll call, a relief, trouble, the closing list, and tags that stay. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askHost, type ConsolePage, goTo, openConsolePage } from '../support/console-page.ts';
import { entriesNow, grewBeyond, playedEvening } from '../support/desk-check.ts';
import { expectSays, MAKING_UP, openDemo, say, turnedClock, words, zone } from '../support/desk-page.ts';
import { pictureFile } from '../support/picture.ts';

describe('an evening from its tags to its closing list', () => {
  const { clock, pass } = turnedClock();
  let opened: ConsolePage;
  beforeAll(async () => {
    opened = await openConsolePage({ width: 1280, height: 800, clock });
    const { page } = opened;
    await openDemo(page, false);
    const trains = ['24 at 8 facing 9 c1', '3 at 9 facing 6', '18 at 16 facing 18', '41 at 12 facing 11'];
    for (const line of [...MAKING_UP, ...trains, 'clock 6:00 4', 'start']) await say(page, line);
  });
  afterAll(() => opened.close());

  it('has railroad time on the Desk and on the wall, which runs only while the session does', async () => {
    const { page } = opened;
    pass(150);
    await page.reload();
    await page.getByText('railroad time 6:10 4:1').waitFor();
    await say(page, 'break tea');
    pass(600);
    await page.reload();
    await page.locator('.desk[data-phase="stopped"]').waitFor();
    await expectSays(page, 'status', 'railroad time 6:10 4:1');
    await goTo(page, 'wall');
    await page.getByText('railroad 6:10 4:1').waitFor();
    await goTo(page, 'desk');
    const { events } = await playedEvening(page);
    expect(events.map(({ input }) => input)).toContainEqual({ do: 'set-clock', minutes: 360, ratio: 4 });
  });

  it('calls the roll in a break: every train with a whole button in sight, the next by one key, then the knobs, then on', async () => {
    const { page } = opened;
    await page.locator('.desk[data-phase="stopped"]').waitFor();
    const box = await zone(page, 'next').boundingBox();
    if (box === null) throw new Error('no roll call');
    const there = zone(page, 'next').getByRole('button', { name: /is there/ });
    await there.nth(5).waitFor();
    expect(await there.count()).toBe(6);
    for (const button of await there.all()) {
      const own = await button.boundingBox();
      expect(own?.height).toBeGreaterThanOrEqual(44);
      expect((own?.y ?? 0) + (own?.height ?? 0)).toBeLessThanOrEqual(box.y + box.height);
    }
    await page.screenshot({ path: pictureFile('desk-roll-call-1280') });
    for (let train = 0; train < 6; train += 1) {
      const before = await entriesNow(page);
      await page.keyboard.press('PageUp');
      expect(await grewBeyond(page, before)).toBe(true);
      await page.waitForTimeout(270);
    }
    await expectSays(page, 'next', 'Every train was called. Which knobs were touched?');
    await page.keyboard.press('PageUp');
    await page.getByText('Every knob was looked at.').waitFor();
    await say(page, 'resume');
    await page.locator('[data-phase="running"]').waitFor();
  });

  it('gives a cab to somebody else with the authority in force read out to them', async () => {
    const { page } = opened;
    await say(page, '7 to 4 over');
    await say(page, 'right');
    await say(page, 'c1 Robin');
    await expectSays(
      page,
      'say',
      '“Robin, you have Cab 1. Cab 1, No. 7: from Depot to 4. Stop at the gap. Read back.”',
    );
  });

  it('warns of a second train that a knob brings to life, and says what to turn back', async () => {
    const { page } = opened;
    await say(page, 'k4 1');
    await say(page, 'k3 1');
    await say(page, '7 in');
    await say(page, 'k8 is 1');
    await page.getByText('SECOND TRAIN').first().waitFor();
    await expectSays(page, 'next', 'K8');
    await say(page, 'k8 is off');
    await page.getByText('SECOND TRAIN').waitFor({ state: 'detached' });
  });

  it('says the steps when a breaker trips, and that all may inch when it is reset', async () => {
    const { page } = opened;
    await say(page, 'trip south');
    await expectSays(page, 'band', 'Look for what bridges the rails. Press it in once.');
    await expectSays(page, 'say', 'Everybody on South bench: handles to zero. The breaker tripped.');
    await say(page, 'reset south');
    await expectSays(page, 'say', 'Inch your train and say which way.');
    await page.getByText('BREAKER').waitFor({ state: 'detached' });
  });

  it('ends with what is left to do, and offers to keep a train that came for tonight', async () => {
    const { page } = opened;
    await say(page, 'new 88 guest 900 2.5');
    await say(page, 'tag k6 loose knob');
    await say(page, 'end');
    await page.locator('[data-phase="ended"]').waitFor();
    const list = await words(page, 'next');
    for (const part of [
      'All handles to zero.',
      'Selectors to off: K3, K4.',
      'Master switch off: by the cellar stairs.',
      'Out of service, also next time: K6 (loose knob).',
      'Anything to remember is a note.',
    ])
      expect(list).toContain(part);
    await page.screenshot({ path: pictureFile('desk-closing-1280') });
    await page.getByRole('button', { name: 'Keep No. 88 guest in the railroad' }).press('Enter');
    await zone(page, 'next').getByRole('status').filter({ hasText: /88/ }).waitFor();
    const [card] = await askHost(page, 'railroads.list', {});
    const kept = await askHost(page, 'railroads.read', { id: card?.id ?? '' });
    expect(JSON.stringify(kept.document)).toContain('"No. 88 guest"');
  });

  it('leaves its tags to the next evening, though the host was started again in between', async () => {
    pass(86_400);
    await opened.restart();
    const { page } = opened;
    await page.getByRole('button', { name: 'Open with a crew' }).first().press('Enter');
    await page.locator('[data-phase="making-up"]').waitFor();
    await page.getByText('1 out of service').waitFor();
    await page.getByText('K6', { exact: false }).first().waitFor();
    for (const line of [...MAKING_UP, '24 at 8 facing 9 c3', 'start']) await say(page, line);
    await say(page, 'k6 1');
    await page.getByText('REFUSED').first().waitFor();
    await expectSays(page, 'band', 'loose knob');
    await say(page, 'untag k6');
    await say(page, 'k6 1');
    expect((await askHost(page, 'evening.read', {}))?.state.selectors).toMatchObject({
      K6: { position: '1' },
    });
  });

  it('made the browser complain of nothing', () => {
    expect(opened.complaints).toEqual([]);
  });
});
