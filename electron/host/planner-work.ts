/** What the planner's worker does with a task, and what it tells meanwhile. Clock and listener come from outside. */
import { drawsFrom } from '../../shared-model/chance.ts';
import { capacity } from '../../shared-model/planning/capacity.ts';
import type { CapacityAnswer } from '../../shared-model/planning/capacity-answer.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import type { PlanAnswer } from '../../shared-model/planning/plan-answer.ts';
import { type SafeVerdict, safe } from '../../shared-model/planning/safe.ts';
import type { PlannerTask } from './planner-task.ts';

export interface PlannerReport {
  readonly says: string;
  readonly best?: unknown;
}
export interface PlannerSurroundings {
  /** Milliseconds, monotonic. */
  readonly now: () => number;
  readonly tell: (report: PlannerReport) => void;
}

type TaskOf<Kind extends PlannerTask['kind']> = Extract<PlannerTask, { kind: Kind }>;

/** Between two words of progress, in milliseconds, so that a screen is told and not flooded. */
const WORD_EVERY_MS = 250;
/** States of the first look of `safe`; each further look has this many times as many. */
const FIRST_LOOK = 100_000;
const LOOK_GROWS = 8;

/** Looks with growing effort, and tells of each look that decided nothing. The answer is that of one look with the whole effort. */
function decide(task: TaskOf<'safe'>, { tell }: PlannerSurroundings): SafeVerdict {
  for (let states = FIRST_LOOK; states < task.states; states *= LOOK_GROWS) {
    const answer = safe(task.railroad, task.situation, { states });
    if (answer.verdict !== 'undecided' || answer.isFull === true) return answer;
    tell({ says: `Not decided by ${answer.states} states; looking further.`, best: answer });
  }
  return safe(task.railroad, task.situation, { states: task.states });
}

/** Tells of the first plan at once, then of the best so far now and then. */
function planning(task: TaskOf<'plan'>, { now, tell }: PlannerSurroundings): PlanAnswer {
  const began = now();
  let told = Number.NEGATIVE_INFINITY;
  let best: PlanAnswer | null = null;
  let untold = false;
  const tellNow = () => {
    told = now();
    const after = `${((told - began) / 1000).toFixed(1)} s`;
    if (best === null) return tell({ says: `No plan yet after ${after}.` });
    const words = `After ${after}: arrivals sum to ${best.total?.toFixed(1)} s, at least ${best.lowerBound?.toFixed(1)} s.`;
    tell(untold ? { says: words, best } : { says: words });
    untold = false;
  };
  return plan(task.railroad, task.situation, task.options, {
    draw: drawsFrom(task.seed),
    unlike: task.unlike,
    shouldStop: () => {
      if (now() > told + WORD_EVERY_MS) tellNow();
      return now() > began + task.limitSeconds * 1000;
    },
    onBetter: (better) => {
      const isFirst = best === null;
      best = better;
      untold = true;
      if (isFirst) tellNow();
    },
  });
}

/** Tells how long it has looked; what is known so far is the answer when the time is up. */
function countTrains(task: TaskOf<'capacity'>, { now, tell }: PlannerSurroundings): CapacityAnswer {
  const began = now();
  let told = began;
  return capacity(task.railroad, {
    seed: task.seed,
    shouldStop: () => {
      if (now() > told + WORD_EVERY_MS) {
        told = now();
        tell({ says: `Trying since ${((told - began) / 1000).toFixed(1)} s.` });
      }
      return now() > began + task.limitSeconds * 1000;
    },
  });
}

/** Does a task to its end. */
export function doPlannerTask(task: PlannerTask, surroundings: PlannerSurroundings): unknown {
  switch (task.kind) {
    case 'safe':
      return decide(task, surroundings);
    case 'plan':
      return planning(task, surroundings);
    case 'capacity':
      return countTrains(task, surroundings);
  }
}
