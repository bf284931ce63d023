/** The demo evening said at the Desk by keys alone, with the page and the host begun anew in the middle of it; and how many keys it takes. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Clock } from '../../electron/host/clock.ts';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import { stateAnswer } from '../../shared-model/session/state-answer.ts';
import { type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { expectAsRehearsed, playedEvening } from '../support/desk-check.ts';
import { countedKeys, type KeyedAct, keyedActs } from '../support/desk-keys.ts';

const railroad = indexRailroad(demoRailroad);
const [opening, ...script] = demoEvening();
if (opening === undefined) throw new Error('the demo evening is empty');
const opened = take(newEvening(railroad), opening).evening;
const { acts, typed, scripted } = keyedActs(opened, script);

/** Three trains go round and the yard works: from the first stretch on which every train has been sent before, to the break. */
const ROUNDS = { from: 780, to: 1860 };
const inRounds = ({ at }: { readonly at: number }): boolean => at >= ROUNDS.from && at < ROUNDS.to;
const sum = (list: readonly KeyedAct[]): number => list.reduce((keys, act) => keys + countedKeys(act), 0);
const blocksPassed = (from: number, to: number): number =>
  script.filter(({ at, input }) => at >= from && at < to && input.do === 'advance').length;

function keysByMinute(list: readonly KeyedAct[]): readonly number[] {
  const minutes = new Map<number, number>();
  for (const act of list) {
    const minute = Math.floor(act.at / 60);
    minutes.set(minute, (minutes.get(minute) ?? 0) + countedKeys(act));
  }
  return [...minutes.values()];
}

/** The evening's own clock: the host lives by the script. */
let second = 0;
const START = Date.parse('2026-11-25T20:00:00Z');
const clock: Clock = { wall: () => START + second * 1000, monotonic: () => second * 1000 };

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
  // Who goes through the ways out waits until they stand there.
  if (act.looks) await page.page.locator('.desk-band [aria-live] .act').first().waitFor();
  for (const stroke of act.strokes) await press(stroke);
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
  const middle = acts.findIndex(({ at }) => at > 1200);
  for (const [index, act] of acts.entries()) {
    if (index === middle) await beginAnew(() => page.page.reload());
    if (index === middle + 10) await beginAnew(() => page.restart());
    await say(act);
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

  it('takes at most 3 keys a block, and 20 in any minute, while three trains go round', () => {
    const rounds = acts.filter(inRounds);
    const keys = sum(rounds) / blocksPassed(ROUNDS.from, ROUNDS.to);
    const minute = Math.max(...keysByMinute(rounds));
    const start = script.find(({ input }) => input.do === 'start')?.at ?? 0;
    const running = acts.filter(({ at }) => at > start);
    console.info(
      `keys a block: ${keys.toFixed(2)} while three trains go round, ${(sum(running) / blocksPassed(start, Number.POSITIVE_INFINITY)).toFixed(2)} in the whole evening with its trouble, guests and yard work; keys in the busiest minute: ${minute} of the rounds, ${Math.max(...keysByMinute(running))} of the evening (letters of notes, reasons and names not counted)`,
    );
    expect(keys).toBeLessThanOrEqual(3);
    expect(minute).toBeLessThanOrEqual(20);
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
