/** The walk along the knobs: what nobody has thrown or looked at tonight, reported to stand as it is shown. */
import type { NodeId, SelectorId, ToggleId } from '../../shared-model/ids.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { SessionState } from '../../shared-model/session/state.ts';

const presumedIn = <Id extends string, Now extends { readonly presumed: boolean }>(
  record: Readonly<Record<Id, Now>>,
): readonly [Id, Now][] => (Object.entries(record) as [Id, Now][]).filter(([, { presumed }]) => presumed);

export function asShown({ selectors, turnouts, toggles }: SessionState): readonly SessionInput[] {
  return [
    ...presumedIn<SelectorId, SessionState['selectors'][SelectorId]>(selectors).map(
      ([selector, { position }]): SessionInput => ({ do: 'selector-stands-at', selector, position }),
    ),
    ...presumedIn<NodeId, SessionState['turnouts'][NodeId]>(turnouts).map(
      ([turnout, { position }]): SessionInput => ({ do: 'turnout-stands-at', turnout, position }),
    ),
    ...presumedIn<ToggleId, SessionState['toggles'][ToggleId]>(toggles).map(
      ([toggle, { on }]): SessionInput => ({ do: 'toggle-stands-at', toggle, on }),
    ),
  ];
}
