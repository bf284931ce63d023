/** Reports of more things than one batch takes: the walk along the knobs of a great railroad goes in parts, since no report rests on another. */
import { type BatchItem, MOST_ITEMS } from '../../shared-model/session/batch.ts';
import { isObservation } from '../../shared-model/session/input.ts';

/** One batch, whole or not at all, wherever an order is in it; reports alone in batches that are taken. */
export function inParts(items: readonly BatchItem[]): readonly (readonly BatchItem[])[] {
  if (items.length <= MOST_ITEMS || !items.every(({ input }) => isObservation(input))) return [items];
  return Array.from({ length: Math.ceil(items.length / MOST_ITEMS) }, (_, part) =>
    items.slice(part * MOST_ITEMS, (part + 1) * MOST_ITEMS),
  );
}
