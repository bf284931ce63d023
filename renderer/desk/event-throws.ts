/** Throws that stand in events alone: those of a change of cab, and the guards beyond a limit. They last until a hand has made them, or nobody needs them. */
import type { SelectorId, TrainId } from '../../shared-model/ids.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { Throw } from '../../shared-model/session/state.ts';
import type { LineContext } from './entry-line/reading.ts';
import type { PendingThrow } from './pending-throw.ts';

/** Whether a hand made this movement, or it was found made, after an event. */
function isDone({ kind, id, to }: Throw, later: readonly SessionEvent[]): boolean {
  return later.some(
    ({ input, outcome }) =>
      outcome !== 'refused' &&
      kind === 'selector' &&
      (input.do === 'turn-selector' || input.do === 'selector-stands-at') &&
      input.selector === id &&
      input.position === to,
  );
}

/** All knobs of the train to off first, then one by one to the new cab: the later ones wait for the earlier. */
export function cabChangeThrows({ state, recent }: LineContext): readonly PendingThrow[] {
  return recent.flatMap((event, index): readonly PendingThrow[] => {
    const { input } = event;
    if (input.do !== 'change-cab' || event.outcome === 'refused') return [];
    const train = state.trains[input.train];
    const later = recent.slice(index + 1);
    const overtaken = later.some(
      (other) =>
        other.input.do === 'change-cab' && other.input.train === input.train && other.outcome !== 'refused',
    );
    if (train?.cab !== input.cab || !train.placed || overtaken) return [];
    const left = (event.throws ?? []).filter((thrown) => !isDone(thrown, later));
    const toOff = left.filter(({ to }) => to === 'off').map(({ id }) => id);
    return left.map((thrown) => ({
      thrown: { ...thrown, waitsFor: thrown.to === 'off' ? [] : toOff },
      train: input.train as TrainId,
      cab: input.cab,
      for: 'change-cab',
      blocksAhead: 0,
      running: false,
    }));
  });
}

/** The open blocks beyond the limits of authorities in force that are not off yet. */
export function guardThrows({ state, recent }: LineContext): readonly PendingThrow[] {
  return recent.flatMap((event): readonly PendingThrow[] => {
    const authority = event.authority === undefined ? undefined : state.authorities[event.authority];
    if (authority === undefined || authority.state === 'fulfilled' || authority.state === 'annulled')
      return [];
    const now = state.trains[authority.train];
    return (event.guards ?? [])
      .filter(
        ({ id, block }) =>
          state.blocks[block]?.state === 'open' && state.selectors[id as SelectorId]?.position !== 'off',
      )
      .map((thrown) => ({
        thrown,
        train: authority.train,
        cab: now?.cab ?? null,
        for: 'guard',
        blocksAhead: authority.legs.length - authority.at,
        running: now?.stopped === false,
      }));
  });
}
