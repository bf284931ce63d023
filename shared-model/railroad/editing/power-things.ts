/** Operations on the supplies and throttles of a draft. */
import { type SupplyId, supplyId, type ThrottleId, throttleId } from '../../ids.ts';
import type { Supply, Throttle } from '../document.ts';
import { type DraftDocument, freshId } from './draft.ts';
import { done, type Outcome, refused } from './outcome.ts';
import { withNew, without, withThing } from './things.ts';

/** Figures of a common pack, to be replaced by those on the plate (common practice, no source). */
const USUAL_SUPPLY = { ratedVa: 180, maxVolts: 18, impedanceOhms: 0.25, breakerAmps: 10 } as const;
const USUAL_THROTTLE_AMPS = 8;

/** A supply that the draft has not: with the figures of the last one, else of a common pack. */
export function withNewSupply(draft: DraftDocument): DraftDocument {
  const id = supplyId.parse(freshId(draft, 'S'));
  const last: Omit<Supply, 'id' | 'name'> = draft.supplies.at(-1) ?? USUAL_SUPPLY;
  return withNew(draft, 'supplies', { ...last, id, name: `Supply ${draft.supplies.length + 1}` });
}

/** A throttle that the draft has not, on the last supply; one is added where there is none. Its id is what stands on the dials: a number. */
export function withNewThrottle(draft: DraftDocument): DraftDocument {
  const powered = draft.supplies.length === 0 ? withNewSupply(draft) : draft;
  const supply = powered.supplies.at(-1)?.id ?? supplyId.parse('S1');
  const id = throttleId.parse(freshId(powered, ''));
  const last: Partial<Throttle> = powered.throttles.at(-1) ?? {};
  const maxAmps = last.maxAmps ?? USUAL_THROTTLE_AMPS;
  return withNew(powered, 'throttles', { id, name: `Cab ${id}`, supply, maxAmps });
}

/** Takes a supply out; refused while a throttle is on it. */
export function withoutSupply(draft: DraftDocument, id: SupplyId): Outcome {
  const on = draft.throttles.filter(({ supply }) => supply === id).map(({ name }) => name);
  return on.length > 0
    ? refused(`${on.join(', ')} ${on.length === 1 ? 'is' : 'are'} on it: give them another supply first`)
    : done(without(draft, 'supplies', id));
}

/**
 * Takes a throttle out: its positions on the dials are not wired any more, settings that name it say off.
 *
 * @returns refused while a block is wired straight to it
 */
export function withoutThrottle(draft: DraftDocument, id: ThrottleId): Outcome {
  const on = draft.blocks.filter(({ source }) => 'throttle' in source && source.throttle === id);
  if (on.length > 0)
    return refused(
      `${on.map(({ name }) => name).join(', ')} ${on.length === 1 ? 'is' : 'are'} wired straight to it: give them another source first`,
    );
  const off = draft.selectors.reduce(
    (so, { id: dial, positions }) =>
      positions.includes(id)
        ? withThing(so, 'selectors', dial, {
            positions: positions.map((position) => (position === id ? null : position)),
          })
        : so,
    without(draft, 'throttles', id),
  );
  return done(
    off.settings.reduce(
      (so, setting) =>
        Object.values(setting.selectors).includes(id)
          ? withThing(so, 'settings', setting.id, {
              selectors: Object.fromEntries(
                Object.entries(setting.selectors).map(([dial, at]) => [dial, at === id ? 'off' : at]),
              ),
            })
          : so,
      off,
    ),
  );
}
