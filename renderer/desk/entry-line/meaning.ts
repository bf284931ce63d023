/** What a typed line may mean. */
import type { BatchItem } from '../../../shared-model/session/batch.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import type { Named } from './names.ts';

export type Meaning =
  /** Something to send, whole or not at all. */
  | { readonly kind: 'batch'; readonly items: readonly BatchItem[] }
  /** Asks for the reason of something; nothing is sent. */
  | { readonly kind: 'why'; readonly about: string | null }
  /** Several things fit. */
  | { readonly kind: 'several'; readonly list: readonly Named[] }
  /** Not yet, or not at all, a line; in words what would be. */
  | { readonly kind: 'expects'; readonly says: string };

export const expects = (says: string): Meaning => ({ kind: 'expects', says });
export const say = (...inputs: readonly SessionInput[]): Meaning => ({
  kind: 'batch',
  items: inputs.map((input) => ({ input })),
});

/** A throw said after the hand: the order, and if it is refused, the report of where the thing now stands. */
export function confirmed(input: SessionInput): BatchItem {
  if (input.do === 'turn-selector')
    return {
      input,
      otherwise: { do: 'selector-stands-at', selector: input.selector, position: input.position },
    };
  if (input.do === 'throw-turnout')
    return {
      input,
      otherwise: { do: 'turnout-stands-at', turnout: input.turnout, position: input.position },
    };
  if (input.do === 'set-toggle')
    return { input, otherwise: { do: 'toggle-stands-at', toggle: input.toggle, on: input.on } };
  return { input };
}
