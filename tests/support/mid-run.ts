/** The demo evening in mid-run, in a browser: opened and said to the host up to a second of it, and going on from there. */
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { newEvening, take } from '../../shared-model/session/evening.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { askHost, type ConsolePage, openConsolePage } from './console-page.ts';
import { send } from './rehearsal-page.ts';
import { demo } from './three-trains.ts';

/** Most inputs of one act that are sent at once. */
const AT_ONCE = 40;

/** Inputs in batches that the host takes whole: one that is refused is sent alone. */
function inBatches(until: number): readonly (readonly SessionInput[])[] {
  const [opening, ...rest] = demoEvening();
  if (opening === undefined) throw new Error('the demo evening is empty');
  let { evening } = take(newEvening(demo), opening);
  const batches: SessionInput[][] = [];
  let wasRefused = true;
  for (const timed of rest.filter(({ at }) => at <= until)) {
    const taken = take(evening, timed);
    evening = taken.evening;
    const isRefused = taken.event.outcome === 'refused';
    const last = batches.at(-1);
    if (last === undefined || isRefused || wasRefused || last.length >= AT_ONCE) batches.push([timed.input]);
    else last.push(timed.input);
    wasRefused = isRefused;
  }
  return batches;
}

/** Opens the evening and says all of it up to a second. */
export async function openMidRun(
  until: number,
  size: { width: number; height: number },
): Promise<ConsolePage> {
  const opened = await openConsolePage(size);
  const { page } = opened;
  const [card] = await askHost(page, 'railroads.list', {});
  await askHost(page, 'evening.open', { railroad: card?.id ?? '', alone: false });
  for (const inputs of inBatches(until)) await send(page, inputs);
  return opened;
}
