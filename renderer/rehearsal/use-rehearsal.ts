/** One rehearsal: what stands where, what was asked of the planner, the plans that came of it, and which of them is looked at. */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Parsed } from '../../shared-model/malformed.ts';
import { type PlanOptions, USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { draggedStart } from '../../shared-model/planning/rehearsal/drag-move.ts';
import type { ForkedEvening } from '../../shared-model/planning/rehearsal/fork-evening.ts';
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import { planAnswer, plannerEnded } from '../../shared-model/wire/planner.ts';
import type { MadeReal } from './kept-rehearsal.ts';
import { forkFor, type PlanKept, type PlanSeen, seePlan } from './made-plan.ts';
import type { Origin } from './origin.ts';
import { type Job, useJob } from './use-job.ts';

/** What the screen plans with unless it is changed: the voice and the starts cost time. */
export const SCREEN_OPTIONS: PlanOptions = { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 };
const SEARCH_SECONDS = 10;

export interface Rehearsal {
  readonly origin: Origin;
  readonly json: SituationJson;
  readonly parsed: Parsed<Situation>;
  /** Null while the situation is wrong. */
  readonly fork: ForkedEvening | null;
  readonly change: (json: SituationJson) => void;
  readonly options: PlanOptions;
  readonly changeOptions: (part: Partial<PlanOptions>) => void;
  readonly safe: Job;
  readonly askSafe: (states: number) => void;
  readonly planning: Job;
  readonly askPlan: () => void;
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
}

/** The plan in what the worker answered: its own, or the best so far of one that was cancelled; null where there is none. */
function planIn(answer: unknown): PlanKept['answer'] | null {
  const ended = plannerEnded.safeParse(answer);
  const plan = planAnswer.safeParse(ended.success && 'cancelled' in ended.data ? ended.data.best : answer);
  return plan.success && plan.data.verdict === 'planned' ? plan.data : null;
}

export interface Opened {
  readonly plans: readonly PlanKept[];
  readonly chosen: number;
  readonly madeReal: MadeReal | null;
}

export function useRehearsal(origin: Origin, opened: Opened): Rehearsal {
  const [json, setJson] = useState(origin.json);
  const [options, setOptions] = useState(SCREEN_OPTIONS);
  const [plans, setPlans] = useState(opened.plans);
  const [chosen, setChosen] = useState(opened.chosen);
  const [madeReal, setMadeReal] = useState(opened.madeReal);
  /** The options with which the plan was asked for; those on the screen may have been changed since. */
  const asked = useRef(SCREEN_OPTIONS);
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

  const { clear: clearSafe } = safe;
  const { clear: clearPlanning, state: planningState } = planning;
  const change = useCallback(
    (next: SituationJson) => {
      setJson(next);
      setPlans([]);
      setChosen(0);
      setMadeReal(null);
      clearSafe();
      clearPlanning();
    },
    [clearSafe, clearPlanning],
  );
  useEffect(() => {
    const answer = planningState.is === 'answered' ? planIn(planningState.answer) : null;
    if (answer === null) return;
    setPlans((before) => {
      setChosen(before.length);
      return [...before, { name: `Plan ${before.length + 1}`, options: asked.current, answer }];
    });
  }, [planningState]);

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
      asked.current = options;
      void planning.start({
        task: 'plan',
        ...request,
        options: { ...options, limitSeconds: SEARCH_SECONDS, seed: plans.length + 1 },
      });
    },
    plans,
    chosen,
    choose: setChosen,
    seen,
    seeing,
    drag: (move, start) => {
      if (plan === undefined || seen === null) return;
      const dragged = {
        ...plan.answer,
        ...draggedStart(plan.answer, move, start, seen.timing),
        proven: false,
      };
      const name = plan.name.endsWith(', dragged') ? plan.name : `${plan.name}, dragged`;
      const isDragged = plan.name.endsWith(', dragged');
      setPlans((before) =>
        isDragged
          ? before.map((other, index) => (index === chosen ? { ...plan, answer: dragged } : other))
          : [...before, { ...plan, name, answer: dragged }],
      );
      if (!isDragged) setChosen(plans.length);
    },
    madeReal,
    setMadeReal,
  };
}
