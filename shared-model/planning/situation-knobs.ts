/** How the knobs of a situation stand: as they are given, or as the trains under them need; and whether every throttle has one train. */
import type { BlockId, SelectorId, ThrottleId, ToggleId, TrainId } from '../ids.ts';
import { feedOf } from '../railroad/feed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { type Written, Wrong } from './situation-json.ts';

/** Of a train of a situation, what its knobs ask for. */
export interface FedTrain {
  readonly id: TrainId;
  readonly cab: ThrottleId;
  /** The blocks under it, head first. */
  readonly blocks: readonly BlockId[];
  /** Its destination; null: parked, it does not move. */
  readonly to: BlockId | null;
}

export interface Knobs {
  readonly selectors: ReadonlyMap<SelectorId, ThrottleId | 'off'>;
  readonly toggles: ReadonlyMap<ToggleId, boolean>;
}

/**
 * How the knobs stand: as given, else selectors off and toggles off, but those that feed a train at its cab and on. The knobs of a
 * train that moves may not be given otherwise; those of a parked one may be given as off, so that it stands dead.
 */
export function knobsOf(railroad: Railroad, written: Written, trains: readonly FedTrain[]): Knobs {
  const given = {
    selectors: new Map(Object.entries(written.selectors ?? {}) as [SelectorId, ThrottleId | 'off'][]),
    toggles: new Map(Object.entries(written.toggles ?? {}) as [ToggleId, boolean][]),
  };
  const selectors = new Map(
    railroad.document.selectors.map(({ id }) => [id, given.selectors.get(id) ?? 'off']),
  );
  const toggles = new Map(railroad.document.toggles.map(({ id }) => [id, given.toggles.get(id) ?? false]));
  for (const train of trains)
    for (const block of train.blocks) {
      const feed = feedOf(railroad, block);
      // Beyond a toggle that was given as off, nothing feeds a parked train.
      let dead = false;
      for (const toggle of [...(feed?.toggles ?? [])].reverse()) {
        if (given.toggles.get(toggle) === false) {
          if (train.to !== null)
            throw new Wrong(
              ['toggles', toggle],
              `expected true, since ${train.id} stands in ${block} and is to move`,
            );
          dead = true;
        }
        if (!dead) toggles.set(toggle, true);
      }
      if (dead || feed === null || feed.selector === null) continue;
      const position = given.selectors.get(feed.selector) ?? train.cab;
      // The knob of a parked train's own block may be off; one that lies behind its toggle is not under it and may stand anyhow.
      const mayDiffer = train.to === null && (position === 'off' || feed.toggles.length > 0);
      if (position !== train.cab && !mayDiffer)
        throw new Wrong(
          ['selectors', feed.selector],
          `expected "${train.cab}"${train.to === null ? ' or "off"' : ''}, since ${train.id} stands in ${block}, not "${position}"`,
        );
      selectors.set(feed.selector, position);
    }
  return { selectors, toggles };
}

/** Whether nothing feeds a train where it is parked, so that its throttle may run another train. */
function isParkedDead(railroad: Railroad, { selectors, toggles }: Knobs, train: FedTrain): boolean {
  return (
    train.to === null &&
    train.blocks.every((block) => {
      const feed = feedOf(railroad, block);
      if (feed === null || feed.toggles.some((toggle) => toggles.get(toggle) !== true)) return true;
      return feed.selector !== null && selectors.get(feed.selector) === 'off';
    })
  );
}

/** One train a cab, but for those that nothing feeds. */
export function checkCabs(railroad: Railroad, knobs: Knobs, trains: readonly FedTrain[]): void {
  trains.forEach((train, index) => {
    const other = trains.slice(0, index).find(({ cab }) => cab === train.cab);
    if (other === undefined || isParkedDead(railroad, knobs, train) || isParkedDead(railroad, knobs, other))
      return;
    throw new Wrong(
      ['trains', index, 'cab'],
      `expected one train a cab (or one of them parked in a block whose selector is off), but ${other.id} has cab ${train.cab} too`,
    );
  });
}
