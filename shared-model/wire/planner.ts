/** What goes to the planner's worker and what comes back: the options of each task, and its answers as the screen parses them. */
import { blockId, edgeId, nodeId, selectorId, toggleId, trainId } from '../ids.ts';
import type { CapacityAnswer } from '../planning/capacity-answer.ts';
import { type PlanOptions, USUAL_OPTIONS } from '../planning/plan/options.ts';
import type { PlanAnswer } from '../planning/plan-answer.ts';
import type { SafeVerdict } from '../planning/safe.ts';
import { z } from '../zod.ts';

const seconds = z.number().min(0).max(3600);

/** Effort of `safe`, in states looked at: the usual one takes about a second. */
export const safeOptions = z.strictObject({
  states: z.number().int().min(1).max(100_000_000).default(3_000_000),
});

const planMove = z.strictObject({
  train: trainId,
  blocks: z.array(blockId),
  start: z.number(),
  end: z.number(),
  edges: z.array(edgeId),
});

/** Plans that another one may be unlike. */
const MOST_UNLIKE = 40;

export const planOptions = z.strictObject({
  throwSeconds: seconds.default(USUAL_OPTIONS.throwSeconds),
  marginSeconds: seconds.default(USUAL_OPTIONS.marginSeconds),
  throwsPerMinute: z.number().int().min(1).max(60).default(USUAL_OPTIONS.throwsPerMinute),
  talkSeconds: seconds.default(USUAL_OPTIONS.talkSeconds),
  startSeconds: seconds.default(USUAL_OPTIONS.startSeconds),
  /** How long to look for a better plan. */
  limitSeconds: z.number().min(0.01).max(3600).default(5),
  /** The same situation and seed give the same draws. */
  seed: z.number().int().min(0).max(4_294_967_295).default(1),
  /** The moves of plans that are there already: only one with another way or another order of trains is looked for. */
  unlike: z.array(z.array(planMove)).max(MOST_UNLIKE).default([]),
}) satisfies z.ZodType<PlanOptions>;

/** What `safe` answers. */
export const safeVerdict: z.ZodType<SafeVerdict> = z.strictObject({
  verdict: z.enum(['safe', 'gridlock', 'undecided']),
  witness: z.array(z.strictObject({ train: trainId, to: blockId })).exactOptional(),
  locked: z.strictObject({ trains: z.array(trainId), blocks: z.array(blockId) }).exactOptional(),
  states: z.number(),
  isFull: z.literal(true).exactOptional(),
});

const planThrow = z.strictObject({
  at: z.number(),
  kind: z.enum(['selector', 'turnout', 'toggle']),
  id: z.union([selectorId, nodeId, toggleId]),
  to: z.union([z.string(), z.boolean()]),
  waitsFor: z.array(z.strictObject({ train: trainId, block: blockId })),
});

/** What `plan` answers. */
export const planAnswer: z.ZodType<PlanAnswer> = z.strictObject({
  verdict: z.enum(['planned', 'impossible', 'undecided']),
  moves: z.array(planMove),
  throws: z.array(planThrow),
  total: z.number().nullable(),
  lowerBound: z.number().nullable(),
  proven: z.boolean(),
});

export const capacityOptions = z.strictObject({
  limitSeconds: z.number().min(0.01).max(3600).default(10),
  seed: z.number().int().min(0).max(4_294_967_295).default(1),
});

/** What `capacity` answers. */
export const capacityAnswer: z.ZodType<CapacityAnswer> = z.strictObject({
  trains: z.number().int().nonnegative(),
  bounds: z.array(
    z.strictObject({
      limit: z.enum(['track', 'hands', 'amps', 'cabs']),
      trains: z.number(),
      proven: z.boolean(),
      about: z.array(z.string()),
      says: z.string(),
    }),
  ),
  round: z
    .strictObject({
      trains: z.array(
        z.strictObject({
          train: trainId,
          cab: z.string(),
          edge: z.string(),
          toward: z.string(),
          lengthMm: z.number(),
        }),
      ),
      runs: z.array(z.strictObject({ train: trainId, to: blockId })),
      seconds: z.number(),
      throws: z.number(),
      throwsPerMinute: z.number(),
      occupancy: z.array(z.strictObject({ block: blockId, share: z.number() })),
    })
    .nullable(),
  helps: z.array(
    z.strictObject({
      kind: z.enum(['selector', 'gap', 'siding']),
      block: blockId,
      trains: z.number(),
      moreWays: z.number(),
      says: z.string(),
    }),
  ),
  estimate: z.literal(true),
});

/** A thread that broke down, or was put to an end; `best` is the last that it had told of. */
export const plannerEnded = z.union([
  z.strictObject({ fault: z.string() }),
  z.strictObject({ cancelled: z.literal(true), best: z.unknown() }),
]);
