/** A job for the planner's worker, read whole: the host reads it to answer what is wrong with it, the worker to do it. */
import { type Malformed, type Parsed, parseValue } from '../../shared-model/malformed.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import type { PlanMove } from '../../shared-model/planning/plan-answer.ts';
import { parseSituation, type Situation } from '../../shared-model/planning/situation.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import type { CALLS } from '../../shared-model/wire/contract.ts';
import { capacityOptions, planOptions, safeOptions } from '../../shared-model/wire/planner.ts';
import type { z } from '../../shared-model/zod.ts';

export type PlannerJob = z.output<(typeof CALLS)['plan.start']['request']>;

export type PlannerTask = { readonly railroad: Railroad } & (
  | { readonly kind: 'safe'; readonly situation: Situation; readonly states: number }
  | {
      readonly kind: 'plan';
      readonly situation: Situation;
      readonly options: PlanOptions;
      readonly limitSeconds: number;
      readonly seed: number;
      readonly unlike: readonly (readonly PlanMove[])[];
    }
  | { readonly kind: 'capacity'; readonly limitSeconds: number; readonly seed: number }
);

const wrong = (path: string, says: string) => ({ ok: false, malformed: { path, says } }) as const;

/** The same place, in the job instead of the part. */
const within = (part: string, { path, says }: Malformed) => wrong(path.replace('$', `$.${part}`), says);

/** @returns the task; else the first place in the job that is wrong, and what was expected there */
export function readPlannerTask(job: PlannerJob): Parsed<PlannerTask> {
  const error = whyNotRunnable(job.document);
  if (error !== null) return wrong('$.document', `expected a railroad that can be run: ${error.says}`);
  const railroad = indexRailroad(job.document);
  // How many trains a railroad can keep moving does not depend on what stands on it now.
  if (job.task === 'capacity') {
    const options = parseValue(capacityOptions, job.options);
    if (!options.ok) return within('options', options.malformed);
    return { ok: true, value: { kind: 'capacity', railroad, ...options.value } };
  }
  const parsed = parseSituation(railroad, job.situation);
  if (!parsed.ok) return within('situation', parsed.malformed);
  const situation = parsed.value;
  switch (job.task) {
    case 'safe': {
      const options = parseValue(safeOptions, job.options);
      if (!options.ok) return within('options', options.malformed);
      return { ok: true, value: { kind: 'safe', railroad, situation, ...options.value } };
    }
    case 'plan': {
      const options = parseValue(planOptions, job.options);
      if (!options.ok) return within('options', options.malformed);
      if (situation.reversals)
        return wrong('$.situation.reversals', 'expected false, since plans have no reversals yet');
      const { limitSeconds, seed, unlike, ...rest } = options.value;
      return {
        ok: true,
        value: { kind: 'plan', railroad, situation, options: rest, limitSeconds, seed, unlike },
      };
    }
  }
}
