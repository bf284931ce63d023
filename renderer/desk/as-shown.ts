/** The walk along the knobs: what nobody has thrown or looked at, reported to stand as it is shown. */
import type { NodeId, SelectorId, ToggleId } from '../../shared-model/ids.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { SessionState } from '../../shared-model/session/state.ts';

/** Whether a knob is meant to be reported. */
type Which = (id: string, now: { readonly presumed: boolean }) => boolean;

const list = <Id extends string, Now extends { readonly presumed: boolean }>(
  record: Readonly<Record<Id, Now>>,
  which: Which,
): readonly [Id, Now][] =>
  (Object.entries(record) as [Id, Now][])
    .filter(([id, now]) => which(id, now))
    // In the order of their numbers, however the state was read.
    .toSorted(([one], [other]) => one.localeCompare(other, 'en', { numeric: true }));

function standing({ selectors, turnouts, toggles }: SessionState, which: Which): readonly SessionInput[] {
  return [
    ...list<SelectorId, SessionState['selectors'][SelectorId]>(selectors, which).map(
      ([selector, { position }]): SessionInput => ({ do: 'selector-stands-at', selector, position }),
    ),
    ...list<NodeId, SessionState['turnouts'][NodeId]>(turnouts, which).map(
      ([turnout, { position }]): SessionInput => ({ do: 'turnout-stands-at', turnout, position }),
    ),
    ...list<ToggleId, SessionState['toggles'][ToggleId]>(toggles, which).map(
      ([toggle, { on }]): SessionInput => ({ do: 'toggle-stands-at', toggle, on }),
    ),
  ];
}

/** What nobody has thrown or looked at tonight. */
export const asShown = (state: SessionState): readonly SessionInput[] =>
  standing(state, (_, { presumed }) => presumed);

/** After a stop, when anybody may have touched anything: every knob that was not reported since. */
export const asShownSince = (
  state: SessionState,
  since: readonly SessionEvent[],
): readonly SessionInput[] => {
  const reported = new Set(
    since.flatMap(({ input, outcome }): readonly string[] =>
      outcome === 'refused'
        ? []
        : 'selector' in input
          ? [input.selector]
          : 'turnout' in input
            ? [input.turnout]
            : 'toggle' in input
              ? [input.toggle]
              : [],
    ),
  );
  return standing(state, (id) => !reported.has(id));
};
