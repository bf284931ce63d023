/** What each throttle, selector contact and supply carries, against what it may carry. */
import type { SelectorId, SupplyId, ThrottleId, TrainId } from '../ids.ts';
import type { Supply } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Amps } from '../units.ts';

/** One train's current, where it comes from, and the knobs it goes through. */
export interface Draw {
  readonly train: TrainId;
  readonly amps: Amps;
  readonly throttle: ThrottleId;
  readonly selectors: readonly SelectorId[];
}

export interface Load {
  readonly kind: 'throttle' | 'selector' | 'supply';
  readonly id: ThrottleId | SelectorId | SupplyId;
  readonly name: string;
  readonly amps: Amps;
  readonly limit: Amps;
  readonly trains: readonly TrainId[];
}

/** The current that a supply may give: its VA at its volts. */
export function supplyLimit(supply: Pick<Supply, 'ratedVa' | 'maxVolts'>): Amps {
  return supply.ratedVa / supply.maxVolts;
}

/** More than the limit; as much is not more (a hair's breadth of floating point is none either). */
export function isOver(amps: Amps, limit: Amps): boolean {
  return amps > limit + 1e-9;
}

function load(
  kind: Load['kind'],
  thing: { id: Load['id']; name: string },
  limit: Amps,
  draws: readonly Draw[],
): Load {
  return {
    kind,
    id: thing.id,
    name: thing.name,
    amps: draws.reduce((sum, draw) => sum + draw.amps, 0),
    limit,
    trains: draws.map((draw) => draw.train),
  };
}

/**
 * The loads of a moment.
 *
 * @param draws the trains that draw current then, each once
 * @returns one entry for each throttle, then selector, then supply, in the file's order, idle ones too
 */
export function loadsOf(railroad: Railroad, draws: readonly Draw[]): readonly Load[] {
  const { throttles, selectors, supplies } = railroad.document;
  const supplyOf = (draw: Draw): SupplyId | undefined => railroad.throttles.get(draw.throttle)?.supply;
  return [
    ...throttles.map((throttle) =>
      load(
        'throttle',
        throttle,
        throttle.maxAmps,
        draws.filter((draw) => draw.throttle === throttle.id),
      ),
    ),
    ...selectors.map((selector) =>
      load(
        'selector',
        selector,
        selector.contactAmps,
        draws.filter((draw) => draw.selectors.includes(selector.id)),
      ),
    ),
    ...supplies.map((supply) =>
      load(
        'supply',
        supply,
        supplyLimit(supply),
        draws.filter((draw) => supplyOf(draw) === supply.id),
      ),
    ),
  ];
}

/** The most that a supply can be asked for: the hungriest trains of the railroad, one on each of its throttles. */
export function worstOfSupply(
  railroad: Railroad,
  supply: SupplyId,
): { readonly amps: Amps; readonly trains: readonly TrainId[] } {
  const throttles = railroad.document.throttles.filter((throttle) => throttle.supply === supply).length;
  const hungriest = [...railroad.document.trains]
    .sort((one, other) => other.amps - one.amps)
    .slice(0, throttles);
  return {
    amps: hungriest.reduce((sum, train) => sum + train.amps, 0),
    trains: hungriest.map((train) => train.id),
  };
}
