/** SITUATION as it is written: its fields, and what is named when one of them is wrong. */
import { blockId, edgeId, nodeId, selectorId, throttleId, toggleId, trainId } from '../ids.ts';
import { jsonPath, type Malformed } from '../malformed.ts';
import { turnoutPosition } from '../railroad/document.ts';
import { z } from '../zod.ts';

/** Scale miles an hour of a train that names no speed of its own. */
export const USUAL_MPH = 30;

export const situationSchema = z.strictObject({
  trains: z.array(
    z.strictObject({
      train: trainId,
      edge: edgeId,
      toward: nodeId,
      cab: throttleId,
      to: blockId.optional(),
      mph: z.number().positive().max(1000).optional(),
      notBefore: z.number().nonnegative().max(1_000_000).optional(),
    }),
  ),
  turnouts: z.record(nodeId, turnoutPosition).optional(),
  selectors: z.record(selectorId, z.union([z.literal('off'), throttleId])).optional(),
  toggles: z.record(toggleId, z.boolean()).optional(),
  reversals: z.boolean().optional(),
});
/** A situation as it is written. */
export type SituationJson = z.input<typeof situationSchema>;
/** The same, read. */
export type Written = z.output<typeof situationSchema>;

/** A place in the situation, and what was expected there; raised and caught while a situation is parsed, and nowhere else. */
export class Wrong extends Error {
  readonly malformed: Malformed;

  constructor(path: readonly PropertyKey[], says: string) {
    super(says);
    this.malformed = { path: jsonPath(path), says };
  }
}
