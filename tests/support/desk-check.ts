/** What an evening at the Desk is held against: the same script through the command line's `rehearse`, in a folder of its own. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { expect } from 'vitest';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { OBSERVATION_VERBS, ORDER_VERBS } from '../../shared-model/session/input.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { type StateAnswer, stateAnswer } from '../../shared-model/session/state-answer.ts';
import { askHost } from './console-page.ts';
import { cabward } from './run-cabward.ts';
import { temporaryFolder } from './temporary-folder.ts';

export interface PlayedEvening {
  readonly document: RailroadDocument;
  readonly state: SessionState;
  readonly events: readonly SessionEvent[];
}

/** The evening as the host has it. */
export async function playedEvening(page: Page): Promise<PlayedEvening> {
  const live = await askHost(page, 'evening.read', {});
  if (live === null) throw new Error('no evening is open');
  const events = await askHost(page, 'evenings.events', { id: live.id, from: 1, to: live.state.entries });
  return { document: live.document, state: live.state, events };
}

/** The final state that `rehearse` gives for the inputs of an evening. */
async function rehearsed({ document, events }: PlayedEvening): Promise<StateAnswer> {
  const folder = temporaryFolder();
  const [railroad, script] = [join(folder, 'railroad.json'), join(folder, 'evening.jsonl')];
  writeFileSync(railroad, JSON.stringify(document));
  writeFileSync(script, events.map(({ at, input }) => JSON.stringify({ at, ...input })).join('\n'));
  const { out, err } = await cabward('rehearse', railroad, script, '--json');
  expect(err).toBe('');
  const { entries: _, ...state } = JSON.parse(out) as StateAnswer & { readonly entries: unknown };
  return state;
}

/** The evening ends in the state that the command line gives for the same script. */
export async function expectAsRehearsed(page: Page): Promise<void> {
  const played = await playedEvening(page);
  expect(stateAnswer(indexRailroad(played.document), played.state)).toEqual(await rehearsed(played));
}

/** Every order and observation that there is occurs. */
export function expectEveryVerb(events: readonly SessionEvent[]): void {
  const said = new Set<string>(events.map(({ input }) => input.do));
  expect([...ORDER_VERBS, ...OBSERVATION_VERBS].filter((verb) => !said.has(verb))).toEqual([]);
}

const PATIENCE_MS = 15_000;

/** How many entries the evening has. */
export async function entriesNow(page: Page): Promise<number> {
  return (await askHost(page, 'evening.read', {}))?.state.entries ?? 0;
}

/** Waits until the evening has more entries, and the Desk has drawn them; false when it did not come to have them. */
export async function grewBeyond(page: Page, before: number): Promise<boolean> {
  for (const until = performance.now() + PATIENCE_MS; performance.now() < until; ) {
    const now = await entriesNow(page);
    if (now <= before) continue;
    await page.waitForFunction(
      (entries) => Number(document.querySelector('.desk')?.getAttribute('data-entries')) >= entries,
      now,
    );
    return true;
  }
  return false;
}
