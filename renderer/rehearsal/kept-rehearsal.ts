/** A rehearsal as it is kept: the railroad it was on, where everything stood, and the plans that were made. */

import { blockId, trainId } from '../../shared-model/ids.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import { type SituationJson, situationSchema } from '../../shared-model/planning/situation.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { planAnswer } from '../../shared-model/wire/planner.ts';
import { z } from '../../shared-model/zod.ts';
import type { PlanKept } from './made-plan.ts';
import type { Origin } from './origin.ts';

const planOptions: z.ZodType<PlanOptions> = z.strictObject({
  throwSeconds: z.number(),
  marginSeconds: z.number(),
  throwsPerMinute: z.number(),
  talkSeconds: z.number(),
  startSeconds: z.number(),
});

/**
 * Where a plan was made real: the evening, the number of the first entry, the session's second that was the plan's 0; which plan, and which
 * of its orders were given.
 */
const madeReal = z.strictObject({
  evening: z.string(),
  entry: z.number().int().positive(),
  began: z.number(),
  plan: z.number().int().nonnegative().default(0),
  given: z.array(z.number().int().nonnegative()).readonly().default([]),
});
export type MadeReal = z.infer<typeof madeReal>;

/** Letters of a name at most. */
export const MOST_NAME = 80;

export const keptRehearsal = z.strictObject({
  format: z.literal('cabward-rehearsal/1'),
  name: z.string().min(1).max(MOST_NAME),
  from: z.string(),
  document: railroadDocument,
  situation: situationSchema,
  /** Trains that were on their way when it was begun from the live evening. */
  underWay: z
    .array(z.strictObject({ train: trainId, blocks: z.array(blockId), entered: z.number().int().positive() }))
    .default([]),
  plans: z.array(z.strictObject({ name: z.string(), options: planOptions, answer: planAnswer })),
  chosen: z.number().int().nonnegative(),
  madeReal: madeReal.nullable(),
});
export type KeptRehearsal = z.infer<typeof keptRehearsal>;

/**
 * The first of "Rehearsal 1", "Rehearsal 2" … that is free: one that is kept never takes the place of another unasked.
 *
 * @param taken the names of those that are kept
 */
export function newName(taken: readonly string[]): string {
  let number = 1;
  while (taken.includes(`Rehearsal ${number}`)) number += 1;
  return `Rehearsal ${number}`;
}

/** The kind under which rehearsals are kept by the host. */
export const REHEARSALS = 'rehearsal';

interface Worked {
  readonly origin: Origin;
  readonly json: SituationJson;
  readonly plans: readonly PlanKept[];
  readonly chosen: number;
  readonly madeReal: MadeReal | null;
}

/** A rehearsal as it is kept. */
export function keptOf({ origin, json, plans, chosen, madeReal }: Worked, name: string): KeptRehearsal {
  return {
    format: 'cabward-rehearsal/1',
    name: name.trim() === '' ? 'Rehearsal' : name.trim().slice(0, MOST_NAME),
    from: origin.says,
    document: origin.railroad.document,
    situation: json as KeptRehearsal['situation'],
    underWay: [...origin.underWay].map(([train, { blocks, entered }]) => ({
      train,
      blocks: [...blocks],
      entered,
    })),
    plans: [...plans],
    chosen,
    madeReal,
  };
}
