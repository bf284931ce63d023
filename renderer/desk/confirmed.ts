/** A throw said after the hand has moved: it is the order, and if that is refused, the report of where the thing now stands. */
import type { BatchItem } from '../../shared-model/session/batch.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';

export function confirmed(input: SessionInput): BatchItem {
  switch (input.do) {
    case 'turn-selector': {
      const { selector, position } = input;
      if (position === null) return { input };
      return { input, otherwise: { do: 'selector-stands-at', selector, position } };
    }
    case 'throw-turnout': {
      const { turnout, position } = input;
      return { input, otherwise: { do: 'turnout-stands-at', turnout, position } };
    }
    case 'set-toggle': {
      const { toggle, on } = input;
      return { input, otherwise: { do: 'toggle-stands-at', toggle, on } };
    }
    default:
      return { input };
  }
}
