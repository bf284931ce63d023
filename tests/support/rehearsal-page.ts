/** The Rehearsal in a browser, over an evening with the three trains of its problem on the track. */
import type { Page } from 'playwright';
import { type KeptRehearsal, keptRehearsal } from '../../renderer/rehearsal/kept-rehearsal.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { askHost, type ConsolePage, goTo, openConsolePage } from './console-page.ts';
import { SCREEN_OPTIONS, THREE_TRAINS, threeTrainsPlan } from './three-trains.ts';

const PEOPLE = { 1: 'Avery', 2: 'Blake', 3: 'Kim', 4: 'Robin' };

/** Opens an evening on the demo, checked in phase and running, with the three trains where they stand at first. */
export async function openThreeTrains(size?: { width: number; height: number }): Promise<ConsolePage> {
  const opened = await openConsolePage(size);
  const { page } = opened;
  const [card] = await askHost(page, 'railroads.list', {});
  await askHost(page, 'evening.open', { railroad: card?.id ?? '', alone: false });
  await send(page, [
    ...Object.entries(PEOPLE).map(([cab, person]) => ({ do: 'assign-cab', cab, person })),
    { do: 'phase-measured', a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 0.3 },
    ...THREE_TRAINS.trains.map(({ train, edge, toward, cab }) => ({
      do: 'place-train',
      train,
      edge,
      toward,
      cab,
    })),
    { do: 'selector-stands-at', selector: 'K5', position: '1' },
    { do: 'selector-stands-at', selector: 'K12', position: '4' },
    { do: 'start' },
  ]);
  await goTo(page, 'rehearsal');
  await page.locator('.rehearsal-train').first().waitFor();
  return opened;
}

/** Sends inputs to the live evening, as somebody at the Desk would. */
export const send = (page: Page, inputs: readonly object[]) =>
  askHost(page, 'evening.send', { items: inputs.map((input) => ({ input })) as never });

/** Every order of a move in the live evening's log, in order. */
export async function movesAsked(page: Page) {
  const evening = await askHost(page, 'evening.read', {});
  return (evening?.recent ?? []).filter(({ input }) => input.do === 'request-move');
}

export const entriesOf = async (page: Page): Promise<number> =>
  (await askHost(page, 'evening.read', {}))?.state.entries ?? 0;

/** The rehearsal that was kept last. */
export async function lastKept(page: Page): Promise<KeptRehearsal> {
  const kept = await askHost(page, 'keep.list', { kind: 'rehearsal' });
  return keptRehearsal.parse(kept.at(-1)?.value);
}

/** How many faults the independent checker finds in the chosen plan of a kept rehearsal. */
export function faultsIn({ document, situation, plans, chosen }: KeptRehearsal): number {
  const railroad = indexRailroad(document);
  const parsed = parseSituation(railroad, situation);
  const plan = plans[chosen];
  if (!parsed.ok || plan === undefined) throw new Error('nothing was kept that can be checked');
  return planFaults(railroad, parsed.value, plan.answer, plan.options).length;
}

/** What the page says of conflicts: how many, and how many of them it lists. */
export async function conflictsShown(
  page: Page,
): Promise<{ readonly count: number; readonly listed: number }> {
  const zone = page.locator('.rehearsal-conflicts');
  return {
    count: Number(await zone.getAttribute('data-count')),
    listed: await zone.locator('li').count(),
  };
}

/** The three trains with a plan that is the same each time. */
const KEPT = {
  format: 'cabward-rehearsal/1',
  name: 'Three trains',
  from: 'the live evening',
  document: demoRailroad,
  situation: THREE_TRAINS,
  plans: [{ name: 'Plan 1', options: SCREEN_OPTIONS, answer: threeTrainsPlan() }],
  chosen: 0,
  madeReal: null,
};

/** Opens the plan that is the same each time, where its orders are made real. */
export async function openKeptPlan(page: Page): Promise<void> {
  await askHost(page, 'keep.write', { kind: 'rehearsal', id: KEPT.name, value: KEPT });
  await goTo(page, 'desk');
  await goTo(page, 'rehearsal');
  await page.getByRole('tab', { name: /Kept/ }).click();
  await page
    .getByRole('button', { name: `Open ${KEPT.name}` })
    .first()
    .click();
  await page.getByRole('tab', { name: 'Make it real' }).click();
  await page.locator('.rehearsal-orders li').first().waitFor();
}
