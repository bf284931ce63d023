/** The demo evening said at the Desk by keys alone, with the page and the host begun anew in the middle of it; and how many keys it takes. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Clock } from '../../electron/host/clock.ts';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import type { TrainId } from '../../shared-model/ids.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { expectAsRehearsed, playedEvening } from '../support/desk-check.ts';
import { type KeyedAct, keyedActs } from '../support/desk-keys.ts';

const railroad = indexRailroad(demoRailroad);
const [opening, ...script] = demoEvening();
if (opening === undefined) throw new Error('the demo evening is empty');
const opened = take(newEvening(railroad), opening).evening;
/** From the twentieth minute on the page, and a little later the console, begins anew. */
const { acts, anew: begins, typed, scripted } = keyedActs(opened, script, 1200);

/** Every stroke that reaches the page, from the first of making up to the last of the closing list, letters of names and reasons too. */
const KEYS = acts.reduce((sum, { strokes }) => sum + strokes.length, 0);

/** How many times a train came into another block by a key. */
function blocksPassed(): number {
  let evening = opened;
  let passed = 0;
  for (const timed of script) {
    const { input } = timed;
    const headOf = () =>
      'train' in input ? evening.state.trains[input.train as TrainId]?.blocks[0] : undefined;
    const before = headOf();
    evening = take(evening, timed).evening;
    if (input.do === 'advance' && headOf() !== before) passed += 1;
  }
  return passed;
}

/** The most strokes in any sixty seconds, whenever they begin. */
const busiestMinute = (list: readonly KeyedAct[]): number =>
  Math.max(
    ...list.map(({ at: from }) =>
      list
        .filter(({ at }) => at >= from && at < from + 60)
        .reduce((sum, { strokes }) => sum + strokes.length, 0),
    ),
  );

/** The evening's own clock: the host lives by the script. */
let second = 0;
const START = Date.parse('2026-11-25T20:00:00Z');
const clock: Clock = { wall: () => START + second * 1000, monotonic: () => second * 1000 };

/** What the Desk may cost. */
const KEYS_A_BLOCK = 3;
const KEYS_A_MINUTE = 20;

/** A machine that does much else is slow; it is not wrong. */
const PATIENCE_MS = 60_000;

let page: ConsolePage;
/** What was seen after the page, and after the host, began anew. */
const anew: {
  readonly notice: string | null;
  readonly entries: string | null;
  readonly board: string | null;
}[] = [];
const before: { entries: string | null; board: string | null }[] = [];

const picture = async () => ({
  entries: await page.page.locator('.desk').getAttribute('data-entries'),
  board: await page.page.getByRole('table').first().textContent(),
});

async function beginAnew(how: () => Promise<unknown>): Promise<void> {
  before.push(await picture());
  await how();
  await page.page.locator('[data-phase="running"]').waitFor();
  const notice = await page.page.getByLabel('Alarms and answers').textContent();
  anew.push({ notice, ...(await picture()) });
}

/** Time passes for the keyboard before every key that is an act: the same act at once would be taken for a key that bounces. */
const BETWEEN_ACTS_MS = 700;
async function press(stroke: string): Promise<void> {
  if (stroke.length > 1)
    await page.page.evaluate((ms) => ((window as unknown as { ahead: number }).ahead += ms), BETWEEN_ACTS_MS);
  await page.page.keyboard.press(stroke === ' ' ? 'Space' : stroke);
}

async function say(act: KeyedAct): Promise<void> {
  second = act.at;
  for (const [index, stroke] of act.strokes.entries()) {
    // Who goes through what is offered waits until it stands there.
    if (index === act.looks) await page.page.locator('.desk-band [aria-live] .act').first().waitFor();
    await press(stroke);
  }
  await page.page.waitForFunction(
    (entries) => Number(document.querySelector('.desk')?.getAttribute('data-entries')) >= entries,
    act.entries,
    { timeout: PATIENCE_MS },
  );
}

beforeAll(async () => {
  page = await openConsolePage({ clock });
  await page.page.addInitScript(() => {
    const own = window as unknown as { ahead: number };
    own.ahead = 0;
    const now = performance.now.bind(performance);
    performance.now = () => now() + own.ahead;
  });
  await page.page.reload();
  await page.page.getByRole('button', { name: 'Open with a crew' }).first().press('Enter');
  await page.page.locator('[data-phase="making-up"]').waitFor();
  for (const [index, act] of acts.entries()) {
    if (index === begins[0]) await beginAnew(() => page.page.reload());
    if (index === begins[1]) await beginAnew(() => page.restart());
    await say(act).catch((error: unknown) => {
      throw new Error(`after ${act.strokes.join(' ')} at ${act.at} s, act ${index}`, { cause: error });
    });
  }
}, 900_000);
afterAll(() => page.close());

describe('the demo evening by keys alone', () => {
  it('is the evening that the keys were found for, and ends as `rehearse` ends with the same inputs', async () => {
    const { state, events } = await playedEvening(page.page);
    const inputs = (list: typeof events) => list.slice(1).map(({ input }) => input);
    // The page says of an evening with a crew that nobody is alone; the script leaves that out.
    expect(events[0]?.input).toMatchObject(opening.input);
    expect(inputs(events)).toEqual(inputs(typed.events));
    expect(stateAnswer(railroad, state)).toEqual(stateAnswer(railroad, typed.state));
    await expectAsRehearsed(page.page);
  });

  it('ends where the script ends, with the same refusals and no alarm left', () => {
    const [own, other] = [stateAnswer(railroad, typed.state), stateAnswer(railroad, scripted.state)];
    expect(own.trains).toEqual(other.trains);
    expect(own.blocks).toEqual(other.blocks);
    expect(own.selectors).toEqual(other.selectors);
    expect(own.alarms).toEqual([]);
  });

  it(`takes at most ${KEYS_A_BLOCK} keys per block passed over the whole evening, and ${KEYS_A_MINUTE} in any minute`, () => {
    const perBlock = KEYS / blocksPassed();
    const minute = busiestMinute(acts);
    console.info(
      `the demo evening by keys alone: ${KEYS} key strokes for ${blocksPassed()} blocks passed, ${perBlock.toFixed(2)} a block, ${minute} in the busiest sixty seconds (letters of names and reasons, making up and closing counted)`,
    );
    expect(perBlock).toBeLessThanOrEqual(KEYS_A_BLOCK);
    expect(minute).toBeLessThanOrEqual(KEYS_A_MINUTE);
  });

  it('goes on where it was when the page is read anew, and says so', () => {
    expect(anew[0]).toMatchObject(before[0] ?? {});
    expect(anew[0]?.notice).toMatch(
      /This page began anew: the evening goes on where it was at .* after \d+ entries/,
    );
  });

  it('goes on where it was when the console is started again, and says so', () => {
    expect(anew[1]).toMatchObject(before[1] ?? {});
    expect(anew[1]?.notice).toMatch(/The console was started again: the evening goes on where it was/);
  });

  it('made the browser complain of nothing', () => {
    expect(page.complaints).toEqual([]);
  });
});
