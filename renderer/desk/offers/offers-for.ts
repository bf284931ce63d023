/** The offers for whatever was touched. */
import type {
  BlockId,
  NodeId,
  SelectorId,
  SupplyId,
  ThrottleId,
  ToggleId,
  TrainId,
} from '../../../shared-model/ids.ts';
import { called } from '../../../shared-model/session/rules/sentences.ts';
import type { LineContext } from '../entry-line/reading.ts';
import { blockOffers } from './block-offers.ts';
import { cabOffers, supplyOffers } from './cab-offers.ts';
import { selectorOffers, toggleOffers, turnoutOffers } from './knob-offers.ts';
import type { OfferGroup } from './offer-group.ts';
import { trainOffers } from './train-offers.ts';

export interface ThingOffers {
  readonly title: string;
  readonly groups: readonly OfferGroup[];
}

/**
 * Nothing is offered once the evening has ended.
 *
 * @param picked the train that was picked before, or null: what is offered at a block is for it
 */
export function offersFor(context: LineContext, thing: string, picked: TrainId | null): ThingOffers {
  const { railroad, state } = context;
  const groups = (): readonly OfferGroup[] => {
    if (state.phase === 'ended') return [];
    if (state.trains[thing as TrainId] !== undefined) return trainOffers(context, thing as TrainId);
    if (railroad.blocks.has(thing as BlockId)) return blockOffers(context, thing as BlockId, picked);
    if (railroad.throttles.has(thing as ThrottleId)) return cabOffers(context, thing as ThrottleId);
    if (railroad.selectors.has(thing as SelectorId)) return selectorOffers(context, thing as SelectorId);
    if (railroad.toggles.has(thing as ToggleId)) return toggleOffers(context, thing as ToggleId);
    if (railroad.supplies.has(thing as SupplyId)) return supplyOffers(context, thing as SupplyId);
    return turnoutOffers(context, thing as NodeId);
  };
  const name = called(context, thing);
  return { title: name.charAt(0).toUpperCase() + name.slice(1), groups: groups() };
}
