/** A club night of 178 lines run at the Desk on a railroad of its own, each line typed: it ends as `rehearse` ends, with the same answer to every line. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Clock } from '../../electron/host/clock.ts';
import { clubNight } from '../support/club-night.ts';
import { askHost, type ConsolePage, openConsolePage } from '../support/console-page.ts';
import { expectAsRehearsed, type PlayedEvening, playedEvening } from '../support/desk-check.ts';
import { MILL_BRANCH } from '../support/mill-branch.ts';

const SCRIPT = new URL('../support/club-night.script.jsonl', import.meta.url);

/** The evening's own clock: the host lives by the script. */
let second = 0;
const START = Date.parse('2026-11-25T20:00:00Z');
const clock: Clock = { wall: () => START + second * 1000, monotonic: () => second * 1000 };
/** A machine that does much else is slow; it is not wrong. */
const PATIENCE_MS = 60_000;

let opened: ConsolePage;
let played: PlayedEvening;

beforeAll(async () => {
  opened = await openConsolePage({ clock });
  const { page } = opened;
  const text = JSON.stringify(MILL_BRANCH);
  const card = await askHost(page, 'railroads.import', { text, name: 'mill branch' });
  await askHost(page, 'evening.open', { railroad: card.id, alone: false });
  await page.locator('[data-phase="making-up"]').waitFor();
  let entries = 1;
  for (const { at, line } of clubNight()) {
    second = at;
    entries += 1;
    await page.keyboard.type(line ?? '');
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (wanted) => Number(document.querySelector('.desk')?.getAttribute('data-entries')) >= wanted,
      entries,
      { timeout: PATIENCE_MS },
    );
  }
  played = await playedEvening(page);
}, 600_000);
afterAll(() => opened.close());

describe('a club night typed at the Desk', () => {
  it('is the script, line by line, at its moments', () => {
    const script = readFileSync(SCRIPT, 'utf8')
      .split('\n')
      .filter((line) => line.startsWith('{'))
      .map((line) => JSON.parse(line) as { readonly at: number });
    const said = played.events.map(({ at, input }) => ({ at, ...input }));
    expect(said.slice(1)).toEqual(script.slice(1));
  });

  it('ends in the state that the command line gives for the same script', async () => {
    await expectAsRehearsed(opened.page);
  });

  it('made the browser complain of nothing', () => {
    expect(opened.complaints).toEqual([]);
  });
});
