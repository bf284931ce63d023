/** An evening at the Desk by pointer alone: every order and observation is touched, no key is pressed; it ends as `rehearse` ends with the same script. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ConsolePage, openConsolePage } from '../support/console-page.ts';
import {
  entriesNow,
  expectAsRehearsed,
  expectEveryVerb,
  grewBeyond,
  playedEvening,
} from '../support/desk-check.ts';

let opened: ConsolePage;

const zone = (name: string) => opened.page.locator(`[data-zone="${name}"]`);
const drawer = () => opened.page.locator('.desk-drawer');
const button = (name: string | RegExp) => opened.page.getByRole('button', { name, exact: true });

/** Touches, and waits until the evening has the entries that come of it. */
async function giving(touch: () => Promise<void>): Promise<void> {
  const before = await entriesNow(opened.page);
  await touch();
  if (!(await grewBeyond(opened.page, before))) throw new Error(`nothing came of ${touch.toString()}`);
}

/** Touches a block or turnout on the board, at its name. */
const touchBoard = (id: string) => zone('board').locator(`[data-opens="${id}"]`).first().click();
const touchOffer = (name: string) => drawer().getByRole('button', { name, exact: true }).click();
const pickOnStrip = (name: string) =>
  zone('cabs')
    .getByRole('button', { name: new RegExp(`(^|\\s)${name}\\b`) })
    .click();
const openCab = (name: string) =>
  zone('cabs')
    .getByRole('button', { name: new RegExp(`^${name}, `) })
    .click();

const atBlock = (id: string, offer: string) =>
  giving(async () => {
    await touchBoard(id);
    await touchOffer(offer);
  });
const atTrain = (name: string, offer: string) =>
  giving(async () => {
    await pickOnStrip(name);
    await touchOffer(offer);
  });
const atCab = (name: string, offer: string) =>
  giving(async () => {
    await openCab(name);
    await touchOffer(offer);
  });
const atDial = (name: RegExp, offer: string) =>
  giving(async () => {
    await zone('dials').getByRole('button', { name }).click();
    await touchOffer(offer);
  });
const more = (offer: string) =>
  giving(async () => {
    await button('More').click();
    await touchOffer(offer);
  });
const inZone = (name: string, act: string | RegExp) =>
  giving(() => zone(name).getByRole('button', { name: act }).first().click());

/** Picks a train that stands nowhere yet, or has no cab. */
async function pickFromMore(name: string): Promise<void> {
  await button('More').click();
  await touchOffer(`pick ${name}`);
}

/** Touches a line out, letter by letter; what an offer began is ended so. */
const letters = (line: string) =>
  giving(async () => {
    if (!(await drawer().isVisible())) await button('Keys').click();
    for (const letter of line) await touchOffer(letter === ' ' ? 'space' : letter);
    await touchOffer('Enter');
    await touchOffer('Close');
  });

async function makingUp(): Promise<void> {
  for (const cab of [1, 2, 3]) await inZone('cabs', `Operator ${cab} has Cab ${cab}`);
  await inZone('cabs', /^As shown/);
  await inZone('cabs', 'Set: All off');
  await letters('phase north south 18 18 .3');
  for (const [train, block, offer] of [
    ['No. 7', 'B3', 'facing 4, Cab 1'],
    ['No. 12', 'B10', 'facing 4, Cab 2'],
    ['No. 24', 'B8', 'facing 9, Cab 3'],
  ] as const) {
    await zone('cabs')
      .getByRole('button', { name: new RegExp(`(^|\\s)${train}\\b`) })
      .first()
      .click();
    await atBlock(block, offer);
  }
  await letters('new 88 guest 900 2.5');
  await more('4 to 1');
  await inZone('cabs', 'Start the evening');
}

/** No. 7 goes over two blocks, its throws, its read-back, its reports by one touch each. */
async function firstMove(): Promise<void> {
  await pickOnStrip('No. 7');
  await touchOffer('Close');
  await atBlock('B5', 'to here, over the gap');
  await inZone('say', /right/);
  for (const _ of [1, 2, 3]) await inZone('next', 'Done');
  await inZone('next', /^All for/);
  await inZone('cabs', 'Cab 1: in 4');
  await inZone('cabs', 'Cab 1: in 5');
  await atTrain('No. 7', 'stopped');
  await atBlock('B5', 'is in here');
}

/** No. 12 asks, waits, and is granted when No. 7 is clear. */
async function anAsk(): Promise<void> {
  await pickOnStrip('No. 12');
  await touchOffer('Close');
  await atBlock('B4', 'to here, over the gap');
  await pickOnStrip('No. 7');
  await touchOffer('was recounted');
  await button('Keys').click();
  await touchOffer('empty');
  await letters('7 is 700 2.8');
  await inZone('next', 'Clear');
  await inZone('next', 'Grant');
  await inZone('say', /right/);
  await inZone('next', /^All for/);
  await inZone('next', /^All for/);
  await inZone('cabs', 'Cab 2: in 4');
  await atTrain('No. 12', 'stopped');
  await inZone('cabs', 'Cab 3 calls');
  await atCab('Cab 3', 'is at zero');
  await inZone('cabs', 'Call stop to Cab 2');
}

async function trouble(): Promise<void> {
  await atTrain('No. 12', 'derailed');
  await inZone('band', /^Seen/);
  await atTrain('No. 12', 'rerailed');
  await atBlock('B4', "4 is No. 12's");
  await atBlock('B10', "10 is No. 12's");
  await atTrain('No. 12', 'stalled');
  await atTrain('No. 12', 'is where it is shown');
  await more('tripped');
  await more('is reset');
  await more('was replugged');
  await atDial(/^Selector 15 /, 'does not work');
  await atDial(/^Selector 15 /, 'back in service');
  await atDial(/^Back hold /, 'on');
  await atDial(/^Back hold /, 'is off');
  await atBlock('T9', 'to reverse');
  await atBlock('T9', 'at normal');
  await atDial(/^Selector 15 /, 'at 3');
  await inZone('entry', /CALL ALL STOP/);
  await inZone('next', 'No. 7 is there');
  await inZone('next', 'Run again');
  await more('break');
  await inZone('next', 'Run again');
}

async function yardWork(): Promise<void> {
  await pickOnStrip('No. 12');
  await touchOffer('Close');
  await touchBoard('B10');
  await touchOffer('limits here and …');
  await letters('4');
  await inZone('say', /right/);
  await atBlock('B4', 'done with its limits here, facing 5');
  await pickOnStrip('No. 12');
  await touchOffer('sets cars out');
  await letters('300 in 10 facing 2');
  await atTrain('No. 12', 'takes cut1');
  await atBlock('B10', 'ends here');
  await pickOnStrip('No. 24');
  await touchOffer('Close');
  await atBlock('B9', 'to here');
  await inZone('say', /right/);
  await atTrain('No. 24', 'annul');
  await pickOnStrip('No. 12');
  await touchOffer('Close');
  await atBlock('B5', 'to here, over the gap');
  await atTrain('No. 12', 'withdraw its ask');
  await atCab('Cab 4', 'Operator 1 takes it');
  await atTrain('No. 24', 'change to Cab 4');
  await inZone('next', 'Done');
}

async function theEnd(): Promise<void> {
  await pickFromMore('No. 88 guest');
  await atBlock('B6', 'facing 7, Cab 3');
  await pickFromMore('No. 3');
  await atBlock('B7', 'facing 8, Cab 3');
  await atTrain('No. 88 guest', 'couples No. 3');
  await atBlock('B7', 'hand off from here to Cab 1');
  await atTrain('No. 88 guest', 'lifted off');
  await pickOnStrip('No. 7');
  await touchOffer('Close');
  await atBlock('B8', 'to here');
  await button('More').click();
  await touchOffer('override the last refusal');
  await letters('i have looked');
  await button('More').click();
  await touchOffer('take an entry back');
  await letters('');
  await letters('note quiet so far');
  await atCab('Cab 4', 'nobody');
  await more('end the evening');
}

beforeAll(async () => {
  opened = await openConsolePage();
  const { page } = opened;
  await page.getByRole('button', { name: 'Open with a crew' }).first().waitFor();
  await page.evaluate(() => {
    const counts = window as unknown as { keys: number };
    counts.keys = 0;
    window.addEventListener('keydown', () => (counts.keys += 1), { capture: true });
  });
  await page.getByRole('button', { name: 'Open with a crew' }).first().click();
  await page.locator('[data-phase="making-up"]').waitFor();
  await makingUp();
  await firstMove();
  await anAsk();
  await trouble();
  await yardWork();
  await theEnd();
});
afterAll(() => opened.close());

describe('an evening at the Desk by pointer alone', () => {
  it('is of 40 inputs or more, and says everything that can be said', async () => {
    const { events } = await playedEvening(opened.page);
    expect(events.length).toBeGreaterThanOrEqual(40);
    expectEveryVerb(events);
  });

  it('ends in the state that the command line gives for the same script', async () => {
    await expectAsRehearsed(opened.page);
  });

  it('used no key, and the browser complained of nothing', async () => {
    expect(await opened.page.evaluate(() => (window as unknown as { keys: number }).keys)).toBe(0);
    expect(opened.complaints).toEqual([]);
  });
});
