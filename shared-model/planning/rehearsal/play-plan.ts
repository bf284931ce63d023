/** A plan played through on a fork of the evening: every order judged by the rules, every throw and report taken, a state after each. */
import { type Evening, take } from '../../session/evening.ts';
import type { SessionEvent } from '../../session/event.ts';
import type { SessionInput } from '../../session/input.ts';
import type { SessionState } from '../../session/state.ts';
import type { Seconds } from '../../units.ts';
import type { PlanAnswer, PlanThrow } from '../plan-answer.ts';
import type { PlanTiming } from '../timing.ts';
import type { PlanOrder } from './plan-orders.ts';

export interface PlayedStep {
  /** Seconds of the plan. */
  readonly at: Seconds;
  readonly kind: 'order' | 'throw' | 'enter' | 'clear' | 'stop';
  readonly event: SessionEvent;
  /** The state after it. */
  readonly state: SessionState;
}

export interface PlayedPlan {
  readonly steps: readonly PlayedStep[];
  /** The orders and throws that the rules refused, and the alarms that reports raised. */
  readonly refused: readonly PlayedStep[];
}

interface Due {
  readonly at: Seconds;
  readonly kind: PlayedStep['kind'];
  readonly train: string | null;
  readonly input: SessionInput;
}

/** What happens at one moment comes in this order: who leaves makes room for who is granted. */
const AT_ONE_MOMENT: readonly PlayedStep['kind'][] = ['clear', 'stop', 'throw', 'order', 'enter'];

function throwInput({ kind, id, to }: PlanThrow): SessionInput {
  const thing = id as never;
  if (kind === 'selector') return { do: 'turn-selector', selector: thing, position: to as never };
  if (kind === 'turnout') return { do: 'throw-turnout', turnout: thing, position: to as never };
  return { do: 'set-toggle', toggle: thing, on: to === true };
}

function dueOf(
  plan: Pick<PlanAnswer, 'moves' | 'throws'>,
  timing: PlanTiming,
  orders: readonly PlanOrder[],
): readonly Due[] {
  const list: Due[] = [
    ...orders.map(({ at, train, input }): Due => ({ at, kind: 'order', train, input })),
    ...timing.hands.flatMap(({ till, of }): Due[] => {
      const thrown = plan.throws[of];
      return thrown === undefined
        ? []
        : [{ at: till, kind: 'throw', train: null, input: throwInput(thrown) }];
    }),
    ...timing.blocks.flatMap(({ train, block, headIn, tailOut }): Due[] => [
      ...(headIn === null
        ? []
        : [
            {
              at: headIn,
              kind: 'enter' as const,
              train,
              input: { do: 'train-entered' as const, train, block },
            },
          ]),
      ...(tailOut === null
        ? []
        : [
            {
              at: tailOut,
              kind: 'clear' as const,
              train,
              input: { do: 'train-cleared' as const, train, block },
            },
          ]),
    ]),
    ...plan.moves.map(
      ({ train, end }): Due => ({ at: end, kind: 'stop', train, input: { do: 'train-stopped', train } }),
    ),
  ];
  return list.sort(
    (one, other) => one.at - other.at || AT_ONE_MOMENT.indexOf(one.kind) - AT_ONE_MOMENT.indexOf(other.kind),
  );
}

/**
 * Plays a plan. A train whose order is refused stays where it is: what it would have done after that is left out.
 *
 * @param evening the fork, running, with the trains as the situation has them
 */
export function playPlan(
  evening: Evening,
  plan: Pick<PlanAnswer, 'moves' | 'throws'>,
  timing: PlanTiming,
  orders: readonly PlanOrder[],
): PlayedPlan {
  let now = evening;
  const steps: PlayedStep[] = [];
  const stuck = new Set<string>();
  const from = evening.state.at;
  for (const { at, kind, train, input } of dueOf(plan, timing, orders)) {
    if (train !== null && stuck.has(train)) continue;
    const taken = take(now, { at: from + Math.max(0, at), input });
    now = taken.evening;
    if (kind === 'order' && taken.event.outcome === 'refused' && train !== null) stuck.add(train);
    steps.push({ at, kind, event: taken.event, state: now.state });
  }
  return { steps, refused: steps.filter(({ event }) => event.outcome !== 'done') };
}
