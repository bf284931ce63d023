/** Phase checks made while no evening goes on, and plugs that were out then, as the host keeps them for the next evening. */
import { supplyId } from '../ids.ts';
import type { Supply } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { z } from '../zod.ts';
import { lapsedFor, withCheck } from './facts/checks.ts';
import type { PhaseCheckNow } from './state.ts';

/** Names under which the host keeps the two. */
export const CHECK_KIND = 'phase-check';
export const REPLUGGED_KIND = 'supply-replugged';

const volts = z.number().nonnegative();

const keptCheck = z.strictObject({
  /** The railroad's id in the library. */
  railroad: z.string(),
  a: supplyId,
  b: supplyId,
  voltsA: volts,
  voltsB: volts,
  voltsAcross: volts,
  /** Of the meter, in percent of each reading. */
  tolerancePercent: z.number().min(0).max(50),
  /** What is printed on the two supplies, as it was entered then; see `plateOf`. */
  plates: z.tuple([z.string(), z.string()]),
});
export type KeptCheck = z.infer<typeof keptCheck>;

const keptReplugging = z.strictObject({ railroad: z.string(), supply: supplyId });
export type KeptReplugging = z.infer<typeof keptReplugging>;

/** What tells one transformer from another: with another plate a supply is another box, and was not measured. */
export function plateOf({ ratedVa, maxVolts, wave }: Pick<Supply, 'ratedVa' | 'maxVolts' | 'wave'>): string {
  return `${ratedVa} VA, ${maxVolts} V, ${wave ?? 'unknown'}`;
}

/** A check that holds while no evening goes on; its moment is never after now. */
export const standingCheck: z.ZodType<PhaseCheckNow> = z.strictObject({
  a: supplyId,
  b: supplyId,
  voltsA: volts,
  voltsB: volts,
  voltsAcross: volts,
  at: z.number().nonpositive(),
  tolerancePercent: z.number().min(0).max(50).exactOptional(),
  lapsed: z.boolean(),
});

/** A document as the host keeps it, with its age. */
export interface KeptAt {
  /** Seconds before now, so never positive. */
  readonly at: number;
  readonly value: unknown;
}

/**
 * What was kept of one railroad since, taken in the order of time upon the checks that held before.
 *
 * @param before the checks as the last evening left them, their moments in seconds before now
 * @param id the railroad's id in the library
 * @param kept everything that was kept, of any railroad; what cannot be read, or is of another, is passed over
 * @returns the checks that hold now; those whose supply was replugged or exchanged since are marked as lapsed
 */
export function withKept(
  railroad: Railroad,
  before: readonly PhaseCheckNow[],
  id: string,
  kept: readonly KeptAt[],
): readonly PhaseCheckNow[] {
  const plate = (supply: PhaseCheckNow['a']): string | undefined => {
    const found = railroad.supplies.get(supply);
    return found === undefined ? undefined : plateOf(found);
  };
  let checks = before;
  for (const { at, value } of [...kept].sort((one, other) => one.at - other.at)) {
    const check = keptCheck.safeParse(value).data;
    const replugged = keptReplugging.safeParse(value).data;
    if (check?.railroad === id) {
      const { railroad: _, plates, ...measured } = check;
      const lapsed = plate(check.a) !== plates[0] || plate(check.b) !== plates[1];
      checks = withCheck(checks, { ...measured, at, lapsed });
    }
    if (replugged?.railroad === id) checks = lapsedFor(checks, replugged.supply);
  }
  return checks.filter(({ a, b }) => railroad.supplies.has(a) && railroad.supplies.has(b));
}
