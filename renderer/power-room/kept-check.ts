/** What the power room keeps outside an evening: phase checks, and which cautions were shown and acknowledged. */
import { supplyId } from '../../shared-model/ids.ts';
import { CAUTION_STEPS } from '../../shared-model/power/cautions.ts';
import type { AgedCheck } from '../../shared-model/power/phase-due.ts';
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import { z } from '../../shared-model/zod.ts';

export const CHECK_KIND = 'phase-check';
export const CAUTION_KIND = 'caution';

const volts = z.number().nonnegative();
const keptCheck = z.object({
  railroad: z.string(),
  a: supplyId,
  b: supplyId,
  voltsA: volts,
  voltsB: volts,
  voltsAcross: volts,
  tolerancePercent: z.number().nonnegative(),
});

const keptCaution = z.object({
  step: z.enum(CAUTION_STEPS),
  /** The texts as they were shown. */
  shown: z.array(z.string()),
});
export type KeptCaution = z.infer<typeof keptCaution>;

/** A document that the host keeps, as `keep.list` brings it; `at` is RFC 3339. */
interface Kept {
  readonly id: string;
  readonly at: string;
  readonly value: unknown;
}

/** A check with its moment, in milliseconds of the calendar. */
export interface DatedCheck extends PairCheck {
  readonly measuredAt: number;
}

const inOrder = (kept: readonly Kept[]): readonly Kept[] =>
  [...kept].sort((one, other) => Date.parse(one.at) - Date.parse(other.at));

/** The kept checks of one railroad in the order of measuring; what is not a check is passed over. */
export function keptChecks(kept: readonly Kept[], railroad: string): readonly DatedCheck[] {
  return inOrder(kept).flatMap(({ at, value }): DatedCheck[] => {
    const parsed = keptCheck.safeParse(value);
    if (!parsed.success || parsed.data.railroad !== railroad) return [];
    const { railroad: _, ...check } = parsed.data;
    return [{ ...check, handlesFull: true, measuredAt: Date.parse(at) }];
  });
}

/** The acknowledged cautions, newest first. */
export function keptCautions(kept: readonly Kept[]): readonly (KeptCaution & { readonly at: string })[] {
  return inOrder(kept)
    .flatMap(({ at, value }) => {
      const parsed = keptCaution.safeParse(value);
      return parsed.success ? [{ ...parsed.data, at }] : [];
    })
    .reverse();
}

/** Checks with their ages at a moment (milliseconds of the calendar). */
export function aged(checks: readonly DatedCheck[], now: number): readonly AgedCheck[] {
  return checks.map((check) => ({ ...check, age: (now - check.measuredAt) / 1000 }));
}
