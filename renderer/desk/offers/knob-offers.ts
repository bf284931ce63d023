/** What can be said of a dial, a toggle or a turnout: turned by the hand, or found so. */
import type { NodeId, SelectorId, ToggleId } from '../../../shared-model/ids.ts';
import type { TurnoutPosition } from '../../../shared-model/railroad/document.ts';
import type { LineContext } from '../entry-line/reading.ts';
import { type OfferGroup, offer, thrown } from './offer-group.ts';
import { tagOffers } from './tag-offers.ts';

const TURNED = 'Turned by the hand';
const FOUND = 'Found so';

export function selectorOffers(
  { railroad, state }: LineContext,
  selector: SelectorId,
): readonly OfferGroup[] {
  const dial = railroad.selectors.get(selector);
  const positions = [...new Set(dial?.positions ?? [])].filter((position) => position !== null);
  return [
    {
      title: TURNED,
      options: positions.map((position) =>
        thrown(`to ${position}`, { do: 'turn-selector', selector, position }),
      ),
    },
    {
      title: FOUND,
      options: positions.map((position) =>
        offer(`at ${position}`, { do: 'selector-stands-at', selector, position }),
      ),
    },
    tagOffers(state, selector, selector),
  ];
}

export function toggleOffers({ state }: LineContext, toggle: ToggleId): readonly OfferGroup[] {
  return [
    {
      title: TURNED,
      options: [true, false].map((on) => thrown(on ? 'on' : 'off', { do: 'set-toggle', toggle, on })),
    },
    {
      title: FOUND,
      options: [true, false].map((on) =>
        offer(on ? 'is on' : 'is off', { do: 'toggle-stands-at', toggle, on }),
      ),
    },
    tagOffers(state, toggle, toggle),
  ];
}

const POSITIONS: readonly TurnoutPosition[] = ['normal', 'reverse'];

export function turnoutOffers({ state }: LineContext, turnout: NodeId): readonly OfferGroup[] {
  return [
    {
      title: TURNED,
      options: POSITIONS.map((position) =>
        thrown(`to ${position}`, { do: 'throw-turnout', turnout, position }),
      ),
    },
    {
      title: FOUND,
      options: POSITIONS.map((position) =>
        offer(`at ${position}`, { do: 'turnout-stands-at', turnout, position }),
      ),
    },
    tagOffers(state, turnout, turnout),
  ];
}
