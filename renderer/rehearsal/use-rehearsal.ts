/** One rehearsal: what stands where, what was asked of the planner, the plans that came of it, and which of them is looked at. */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Parsed } from '../../shared-model/malformed.ts';
import { type PlanOptions, USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { draggedStart } from '../../shared-model/planning/rehearsal/drag-move.ts';
import type { ForkedEvening } from '../../shared-model/planning/rehearsal/fork-evening.ts';
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { PlanTiming } from '../../shared-model/planning/timing.ts';
import { planAnswer, plannerEnded } from '../../shared-model/wire/planner.ts';
import type { MadeReal } from './kept-rehearsal.ts';
import { withKnobsFor } from './knobs-in-the-way.ts';
import { forkFor, type PlanKept, type PlanSeen, seePlan } from './made-plan.ts';
import type { Origin } from './origin.ts';
import { type Job, useJob } from './use-job.ts';
import { useTakenBack } from './use-taken-back.ts';
import { trainWords } from './words.ts';

/** What the screen plans with unless it is changed: the voice and the starts cost time. */
export const SCREEN_OPTIONS: PlanOptions = { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 };
/** The longest that a plan, or the number of trains, is looked for. */
export const SEARCH_SECONDS = 10;

export interface Rehearsal {
  readonly origin: Origin;
  readonly json: SituationJson;
  readonly parsed: Parsed<Situation>;
  /** Null while the situation is wrong. */
  readonly fork: ForkedEvening | null;
  /**
   * Changes what stands where, and turns the knobs that are in the way of it; what was planned for it before goes, until that is taken
   * back. `drag`: of one field, changes are one act.
   */
  readonly change: (says: string, json: SituationJson, drag?: string) => void;
  readonly options: PlanOptions;
  readonly changeOptions: (part: Partial<PlanOptions>) => void;
  readonly safe: Job;
  readonly askSafe: (states: number) => void;
  readonly planning: Job;
  readonly askPlan: () => void;
  /** The best plan so far while one is looked for. */
  readonly bestSoFar: PlanKept | null;
  readonly capacity: Job;
  readonly askCapacity: () => void;
  readonly plans: readonly PlanKept[];
  readonly chosen: number;
  readonly choose: (index: number) => void;
  readonly seen: PlanSeen | null;
  /** Any of the plans as it is seen; null while the situation is wrong. */
  readonly seeing: (plan: PlanKept) => PlanSeen | null;
  readonly drag: (move: number, start: number) => void;
  readonly madeReal: MadeReal | null;
  readonly setMadeReal: (made: MadeReal) => void;
  /** What was done last and can be taken back; null where nothing can. */
  readonly last: string | null;
  readonly takeBack: () => void;
}

const asPlan = (answer: unknown): PlanKept['answer'] | null => {
  const plan = planAnswer.safeParse(answer);
  return plan.success && plan.data.verdict === 'planned' ? plan.data : null;
};

/** The plan in what the worker answered: its own, or the best so far of one that was cancelled; null where there is none. */
function planIn(answer: unknown): PlanKept['answer'] | null {
  const ended = plannerEnded.safeParse(answer);
  return asPlan(ended.success && 'cancelled' in ended.data ? ended.data.best : answer);
}

export interface Opened {
  readonly plans: readonly PlanKept[];
  readonly chosen: number;
  readonly madeReal: MadeReal | null;
}

/** What can be taken back. */
interface Worked extends Opened {
  readonly json: SituationJson;
}

const DRAGGED = ', dragged';

/** The plan with a start dragged: beside the one that was found, or in the place of one that was dragged before. */
function withDragged(
  before: Worked,
  plan: PlanKept,
  timing: PlanTiming,
  move: number,
  start: number,
): Worked {
  const answer = { ...plan.answer, ...draggedStart(plan.answer, move, start, timing), proven: false };
  if (plan.name.endsWith(DRAGGED))
    return { ...before, plans: before.plans.map((one) => (one === plan ? { ...plan, answer } : one)) };
  return {
    ...before,
    plans: [...before.plans, { ...plan, name: `${plan.name}${DRAGGED}`, answer }],
    chosen: before.plans.length,
  };
}

export function useRehearsal(origin: Origin, opened: Opened): Rehearsal {
  const { now, last, act, comes, holds, takeBack } = useTakenBack<Worked>({
    json: origin.json,
    plans: opened.plans,
    chosen: opened.chosen,
    madeReal: opened.madeReal,
  });
  const { json, plans, chosen, madeReal } = now;
  const [options, setOptions] = useState(SCREEN_OPTIONS);
  /** What the plan was asked for with: options and trains on the screen may have been changed since. */
  const asked = useRef({ options: SCREEN_OPTIONS, json });
  const safe = useJob();
  const planning = useJob();
  const capacity = useJob();
  const { railroad } = origin;

  const parsed = useMemo(() => parseSituation(railroad, json), [railroad, json]);
  const situation = parsed.ok ? parsed.value : null;
  const fork = useMemo(
    () => (situation === null ? null : forkFor(railroad, situation, origin.known)),
    [railroad, situation, origin.known],
  );
  /** Each plan is looked at once, however often it is shown. */
  const seeing = useMemo(() => {
    const known = new WeakMap<PlanKept, PlanSeen>();
    return (one: PlanKept): PlanSeen | null => {
      if (situation === null || fork === null) return null;
      const found = known.get(one) ?? seePlan(railroad, situation, fork, one, origin.underWay);
      known.set(one, found);
      return found;
    };
  }, [railroad, situation, fork, origin.underWay]);
  const plan = plans[chosen];
  const seen = plan === undefined ? null : seeing(plan);

  // What the planner is at, or said, is of the trains as they were.
  const { clear: clearSafe } = safe;
  const { clear: clearPlanning, state: planningState } = planning;
  const stood = useRef(json);
  useEffect(() => {
    if (stood.current === json) return;
    stood.current = json;
    clearSafe();
    clearPlanning();
  }, [json, clearSafe, clearPlanning]);
  const change = useCallback(
    (says: string, next: SituationJson, field?: string) =>
      act(says, () => ({ json: withKnobsFor(railroad, next), plans: [], chosen: 0, madeReal: null }), field),
    [act, railroad],
  );
  useEffect(() => {
    const answer = planningState.is === 'answered' ? planIn(planningState.answer) : null;
    if (answer === null) return;
    comes((before) => {
      if (before.json !== asked.current.json) return before;
      const name = `Plan ${before.plans.filter((one) => !one.name.endsWith(DRAGGED)).length + 1}`;
      return {
        ...before,
        plans: [...before.plans, { name, options: asked.current.options, answer }],
        chosen: before.plans.length,
      };
    });
  }, [planningState, comes]);
  const best = planningState.is === 'working' ? planningState.best : null;
  const bestSoFar = useMemo((): PlanKept | null => {
    const answer = asPlan(best);
    return answer === null ? null : { name: 'the best so far', options: asked.current.options, answer };
  }, [best]);

  const request = { document: railroad.document, situation: json };
  return {
    origin,
    json,
    parsed,
    fork,
    change,
    options,
    changeOptions: (part) => setOptions((before) => ({ ...before, ...part })),
    safe,
    askSafe: (states) => void safe.start({ task: 'safe', ...request, options: { states } }),
    capacity,
    askCapacity: () =>
      void capacity.start({
        task: 'capacity',
        document: railroad.document,
        situation: null,
        options: { limitSeconds: SEARCH_SECONDS },
      }),
    planning,
    askPlan: () => {
      asked.current = { options, json };
      void planning.start({
        task: 'plan',
        ...request,
        options: {
          ...options,
          limitSeconds: SEARCH_SECONDS,
          seed: plans.length + 1,
          // With other hands or another voice the same order is a plan of its own.
          unlike: plans
            .filter((other) => JSON.stringify(other.options) === JSON.stringify(options))
            .map(({ answer }) => answer.moves),
        },
      });
    },
    bestSoFar,
    plans,
    chosen,
    choose: (index) => comes((before) => ({ ...before, chosen: index })),
    seen,
    seeing,
    drag: (move, start) => {
      const train = trainWords(railroad, plan?.answer.moves[move]?.train ?? '');
      const dragged = (before: Worked): Worked => {
        const one = before.plans[before.chosen];
        const timing = one === undefined ? undefined : seeing(one)?.timing;
        return one === undefined || timing === undefined
          ? before
          : withDragged(before, one, timing, move, start);
      };
      act(`${train}, start dragged`, dragged, `start ${move}`);
    },
    madeReal,
    setMadeReal: (made) => holds((before) => ({ ...before, madeReal: made })),
    last,
    takeBack,
  };
}
