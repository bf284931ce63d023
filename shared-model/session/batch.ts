/** What the screen sends: a list of inputs, whole or not at all, each item marked with the act that implied it. */
import { z } from '../zod.ts';
import { sessionInput } from './input.ts';

export const batchItem = z.strictObject({
  input: sessionInput,
  /** The act that implied this item, where it was not said itself: an inferred report. */
  impliedBy: z.string().max(80).optional(),
  /**
   * What to take instead if the order is refused (its refusal is logged all the same): a confirm comes after the hand,
   * so a refused throw is followed by the report of where the knob now stands.
   */
  otherwise: sessionInput.optional(),
});
export type BatchItem = z.infer<typeof batchItem>;

/** Most inputs of one act. */
export const MOST_ITEMS = 200;
