/** Which cautions were shown and acknowledged, as the host keeps it. */
import { CAUTION_STEPS } from '../../shared-model/power/cautions.ts';
import { z } from '../../shared-model/zod.ts';

export const CAUTION_KIND = 'caution';

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

const inOrder = (kept: readonly Kept[]): readonly Kept[] =>
  [...kept].sort((one, other) => Date.parse(one.at) - Date.parse(other.at));

/** The acknowledged cautions, newest first. */
export function keptCautions(kept: readonly Kept[]): readonly (KeptCaution & { readonly at: string })[] {
  return inOrder(kept)
    .flatMap(({ at, value }) => {
      const parsed = keptCaution.safeParse(value);
      return parsed.success ? [{ ...parsed.data, at }] : [];
    })
    .reverse();
}
