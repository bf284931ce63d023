/** Gaps ahead of authorities in force where the cab changes between supplies that are not known to be in phase. */
import { authoritiesInForce } from '../facts/authorities.ts';
import { phaseFact, supplyOf } from '../facts/phase.ts';
import type { World } from '../world.ts';

/**
 * Each as the alarm's about: the gap, the supply before it, the supply after it.
 *
 * @param passedToo also those that the head has crossed, while the authority is in force
 */
export function unphasedAhead(
  world: World,
  passedToo = false,
): readonly (readonly [string, string, string])[] {
  return authoritiesInForce(world.state).flatMap(({ authority }) =>
    authority.legs.flatMap((leg, index): (readonly [string, string, string])[] => {
      const before = authority.legs[index - 1];
      if (index <= authority.at && !passedToo) return [];
      if (before === undefined || leg.gap === null || before.cab === leg.cab) return [];
      if (phaseFact(world, before.cab, leg.cab) === 'in-phase') return [];
      return [[leg.gap, supplyOf(world, before.cab), supplyOf(world, leg.cab)]];
    }),
  );
}
