/** A crew for an evening in a browser test: what was granted is read back, its throws are done, and the trains are moved on, as the Desk would say it. */
import type { Page } from 'playwright';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import { askHost } from './console-page.ts';
import { send } from './rehearsal-page.ts';

async function now(page: Page): Promise<{ state: SessionState; recent: readonly SessionEvent[] }> {
  const evening = await askHost(page, 'evening.read', {});
  if (evening === null) throw new Error('no evening goes on');
  return evening;
}

const IN_FORCE: ReadonlySet<string> = new Set(['granted', 'acknowledged', 'running']);

/** The throws of the orders in force that are not done yet. */
function throwsLeft(state: SessionState, recent: readonly SessionEvent[]): readonly object[] {
  return recent
    .filter(
      ({ authority }) => authority !== undefined && IN_FORCE.has(state.authorities[authority]?.state ?? ''),
    )
    .flatMap(({ throws = [] }) => throws)
    .flatMap(({ kind, id, to }): readonly object[] => {
      if (kind === 'turnout')
        return state.turnouts[id as never]?.position === to
          ? []
          : [{ do: 'throw-turnout', turnout: id, position: to }];
      if (kind === 'toggle') return [{ do: 'set-toggle', toggle: id, on: to }];
      return state.selectors[id as never]?.position === to
        ? []
        : [{ do: 'turn-selector', selector: id, position: to }];
    });
}

/** Reads back and throws what there is, then moves the trains named on by a block each. */
export async function crewGoesOn(page: Page, trains: readonly string[]): Promise<void> {
  const { state } = await now(page);
  const { authorities } = state;
  // An order that lengthens another has the number of that one, and its new blocks are read back like it.
  for (const [authority, { state: is, legs }] of Object.entries(authorities))
    if (IN_FORCE.has(is) && legs.some(({ readBack }) => !readBack))
      await send(page, [{ do: 'acknowledge', authority }]);
  for (const train of trains) {
    const { state: before, recent } = await now(page);
    // A throw that is not safe yet is refused, and done the next time.
    for (const thrown of throwsLeft(before, recent)) await send(page, [thrown]);
    const { state: after } = await now(page);
    const goes = Object.values(after.authorities).some(
      (one) => one.train === train && (one.state === 'acknowledged' || one.state === 'running'),
    );
    if (goes) await send(page, [{ do: 'advance', train }]);
  }
}
