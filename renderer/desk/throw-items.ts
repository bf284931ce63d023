/** What the confirm of a throw sends. */
import type { NodeId, SelectorId, ThrottleId, ToggleId } from '../../shared-model/ids.ts';
import type { TurnoutPosition } from '../../shared-model/railroad/document.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { Throw } from '../../shared-model/session/state.ts';
import { confirmed } from './confirmed.ts';
import type { PendingThrow } from './pending-throw.ts';

/** The order that a throw is. */
export function throwOrder({ kind, id, to }: Throw): SessionInput {
  switch (kind) {
    case 'selector':
      return { do: 'turn-selector', selector: id as SelectorId, position: to as ThrottleId | 'off' };
    case 'turnout':
      return { do: 'throw-turnout', turnout: id as NodeId, position: to as TurnoutPosition };
    case 'toggle':
      return { do: 'set-toggle', toggle: id as ToggleId, on: to === true };
  }
}

/** The handles that had to go to zero are said to be there: the words asked for it. Then the throw, or where the thing now stands. */
export function throwItems({ thrown, zeroFirst = [] }: PendingThrow): readonly BatchItem[] {
  const zero = zeroFirst.map(
    (cab): BatchItem => ({ input: { do: 'handle-at-zero', cab }, impliedBy: `throw of ${thrown.id}` }),
  );
  return [...zero, confirmed(throwOrder(thrown))];
}
