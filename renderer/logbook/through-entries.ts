/** Going through the entries of an evening page by page: none is kept, so that a long evening fills no memory. */

import type { SessionEvent } from '../../shared-model/session/event.ts';
import { foldEvents } from '../../shared-model/session/fold.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { Answer, Connection } from '../../shared-model/wire/contract.ts';

/** Most entries that a screen goes through: some evenings' worth. */
export const MOST_READ = 20_000;
const PAGE = 500;

/** Told a page with the state before it; false gives up. */
export type TakePage = (before: SessionState, events: readonly SessionEvent[]) => boolean;

/**
 * Goes through an evening from an entry on, at most `MOST_READ` entries of it.
 *
 * @param from number of the first entry; at least 1
 * @returns whether that was all up to the newest; null where it was given up
 */
export async function throughEntries(
  connection: Connection,
  id: string,
  from: number,
  take: TakePage,
): Promise<Answer<{ readonly whole: boolean }> | null> {
  const start = await connection.call('evenings.stateAt', { id, entry: from - 1 });
  if (!start.ok) return start;
  let { state } = start.value;
  for (let next = from; next < from + MOST_READ; next += PAGE) {
    const page = await connection.call('evenings.events', { id, from: next, to: next + PAGE - 1 });
    if (!page.ok) return page;
    if (!take(state, page.value)) return null;
    if (page.value.length < PAGE) return { ok: true, value: { whole: true } };
    state = foldEvents(state, page.value);
  }
  return { ok: true, value: { whole: false } };
}
