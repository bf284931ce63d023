/** `plan`: moves, holds and throws that bring every train to its destination, in a small total time, as good as the effort allows. */
import type { Draw } from '../chance.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Seconds } from '../units.ts';
import { memoryOf } from './memory.ts';
import { type Exact, searchExactly } from './plan/exact.ts';
import { planByHands, planByTrack, type TimedOrder, timedWitness } from './plan/first-plan.ts';
import { improve } from './plan/improve.ts';
import type { Timer } from './plan/insert-trains.ts';
import { plannedAnswer } from './plan/make-answer.ts';
import type { PlanOptions } from './plan/options.ts';
import { type PlanTask, planTask } from './plan/plan-task.ts';
import { timetabler } from './plan/timetable.ts';
import { timerUnlike } from './plan/unlike.ts';
import type { PlanAnswer, PlanMove } from './plan-answer.ts';
import { type Budget, decideSafe, USUAL_STATES } from './safe-state/decide.ts';
import { soonestAlone } from './safe-state/interval-way.ts';
import type { Situation } from './situation.ts';

/** How long a plan may be worked on, and who is told of what is found. Chance and time come from outside. */
export interface PlanEffort {
  readonly draw: Draw;
  /** Asked often; true ends the work with the best so far. */
  shouldStop(): boolean;
  onBetter?(answer: PlanAnswer): void;
  /** Most bytes that are kept at a time; the usual ones where nothing is said. */
  readonly bytes?: number;
  /** Changes to try without a better plan before it is good enough. */
  readonly patience?: number;
  readonly safeBudget?: Budget;
  /** Moves of plans that are there already: only really different ones are wanted, with another way or another order of trains somewhere. */
  readonly unlike?: readonly (readonly PlanMove[])[];
}

const USUAL_PATIENCE = 60_000;
/** Priorities tried before the search for a safe state is asked, and after it. */
const FIRST_TRIES = 250;
const HANDS_TRIES = 10;
/** Changes tried before the exact search is asked whether that was the best already, and states of that for each change that may be tried. */
const BEFORE_PROOF = 1500;
const PROOF_STATES_PER_CHANGE = 20;
/** Most states of the exact search: about a kilobyte and a half each. */
const MOST_PROOF_STATES = 40_000;
/** States of the last look for a lock when the time is up. */
const LAST_LOOK = 20_000;
const MORE_TRIES = 2000;

const none = (verdict: 'impossible' | 'undecided'): PlanAnswer => ({
  verdict,
  moves: [],
  throws: [],
  total: null,
  lowerBound: null,
  proven: false,
});

/** The total with every train alone on the railroad, parked ones away, and nothing to throw. */
export function lowerBoundOf(task: PlanTask): Seconds {
  const { talkSeconds, startSeconds } = task.options;
  return task.alone.reduce((sum, mover) => {
    if (mover.isGoal(0)) return sum;
    const soonest = soonestAlone(mover, task.table.resources, task.memory);
    // Where its runs are not all there, it may be sooner by those that are not.
    const running = mover.isWhole() ? soonest - mover.notBefore : mover.timeLeft(0);
    return sum + Math.max(mover.notBefore, talkSeconds) + startSeconds + running;
  }, 0);
}

/** The exact search, where all plans are wanted: it knows of no others that are not. */
function exactly(task: PlanTask, { shouldStop, unlike }: PlanEffort, below: Seconds, states: number): Exact {
  return (unlike ?? []).length > 0 ? { ended: false } : searchExactly(task, { below, states, shouldStop });
}

/** A first plan by whatever way finds one; else what can be said without. */
function begin(task: PlanTask, timer: Timer, effort: PlanEffort): TimedOrder | 'impossible' | 'undecided' {
  const { draw, shouldStop } = effort;
  const quick =
    planByTrack(task, timer, draw, FIRST_TRIES, shouldStop) ??
    planByHands(task, timer, draw, HANDS_TRIES, shouldStop);
  if (quick !== null) return quick;
  const safeTask = {
    table: task.table,
    movers: task.movers.map(({ safeMover }) => safeMover),
    obstacles: task.obstacles,
    memory: task.memory,
  };
  // Whoever has no time left still hears of what is plainly impossible.
  const budget = shouldStop()
    ? { states: LAST_LOOK }
    : { states: USUAL_STATES, ...effort.safeBudget, shouldStop };
  const decision = decideSafe(safeTask, budget);
  if (decision.verdict === 'gridlock') return 'impossible';
  const serial = decision.verdict === 'safe' ? timedWitness(task, timer, decision.runs) : null;
  if (serial !== null) return serial;
  // The track allows it; the knobs may not, or not in the moment in which they are needed.
  const any = exactly(task, effort, Number.POSITIVE_INFINITY, MOST_PROOF_STATES);
  if (any.ended) return any.best ?? 'impossible';
  return (
    planByTrack(task, timer, draw, MORE_TRIES, shouldStop) ??
    planByHands(task, timer, draw, MORE_TRIES, shouldStop) ??
    'undecided'
  );
}

/**
 * Plans a situation.
 *
 * @returns never "planned" without a plan, never "impossible" but after an exhaustive search; `proven` only when no smaller total exists
 */
export function plan(
  railroad: Railroad,
  situation: Situation,
  options: PlanOptions,
  effort: PlanEffort,
): PlanAnswer {
  const task = planTask(railroad, situation, options, memoryOf(effort.bytes));
  if (task.movers.some(({ timeLeft }) => timeLeft(0) === Number.POSITIVE_INFINITY)) return none('impossible');
  const timer = timerUnlike(task, timetabler(task), effort.unlike ?? []);
  const first = begin(task, timer, effort);
  if (typeof first === 'string') return none(first);
  const lowerBound = lowerBoundOf(task);
  const answer = (found: TimedOrder): PlanAnswer =>
    plannedAnswer(task, found, lowerBound, found.timetable.total <= lowerBound + 1e-6);
  effort.onBetter?.(answer(first));
  const patience = effort.patience ?? USUAL_PATIENCE;
  const improved = (from: TimedOrder, changes: number): TimedOrder =>
    improve(task, timer, from, effort.draw, {
      shouldStop: effort.shouldStop,
      onBetter: (better) => effort.onBetter?.(answer(better)),
      leastTotal: lowerBound,
      patience: changes,
    });
  const good = improved(first, Math.min(patience, BEFORE_PROOF));
  if (good.timetable.total <= lowerBound + 1e-6) return answer(good);
  const states = Math.min(MOST_PROOF_STATES, patience * PROOF_STATES_PER_CHANGE);
  const exact = exactly(task, effort, good.timetable.total, states);
  if (!exact.ended) return answer(patience > BEFORE_PROOF ? improved(good, patience) : good);
  const best = plannedAnswer(task, exact.best ?? good, lowerBound, true);
  if (exact.best !== null) effort.onBetter?.(best);
  return best;
}
