/** What the plan that is carried out offers at the Desk: its orders that have their turn, and why the others have not. */
import type { TrainId } from '../../shared-model/ids.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { MADE_REAL } from '../../shared-model/planning/rehearsal/plan-orders.ts';
import { blockName } from '../../shared-model/railroad/where-words.ts';
import type { PlanNow, PlannedOrder } from '../carrying/carried-plan.ts';
import { orderWords, waitedWords } from '../carrying/turn-words.ts';
import type { LineContext } from './entry-line/reading.ts';
import type { Doing } from './option.ts';

/** One name for an order of the plan that was put off. */
export const plannedKey = ({ place }: PlannedOrder): string => `plan ${place}`;

/**
 * The orders of the plan that have their turn: those that were put off come last. A train that asks already is offered when its ask is free.
 *
 * @param later keys of what was put off
 */
export function plannedNext({ plan, state }: LineContext, later: readonly string[]): readonly PlannedOrder[] {
  if (plan == null || state.phase !== 'running') return [];
  return plan.next
    .filter(({ order }) => !state.asks.some(({ train }) => train === order.train))
    .toSorted((one, other) => later.indexOf(plannedKey(one)) - later.indexOf(plannedKey(other)));
}

/** Gives an order of the plan: it is judged as any other. */
export const givePlanned = ({ order: { input } }: PlannedOrder): Doing => ({
  kind: 'do',
  option: {
    says: 'grant, by the plan',
    does: { kind: 'send', items: [{ input, impliedBy: MADE_REAL }] },
  },
});

/** Late by less than this is not spoken of: a forecast is not so exact. */
const SPOKEN_SECONDS = 30;

/** "0:45 behind"; empty where a train is as planned. */
export function behindWords(plan: PlanNow, train: TrainId, seconds: number): string {
  const late = plan.behind(seconds).get(train) ?? 0;
  return late < SPOKEN_SECONDS ? '' : `${clockText(late)} behind the plan`;
}

/** "Plan 1, order 2 of 6, 0:45 behind the plan." */
export function plannedWords(plan: PlanNow, { order, place }: PlannedOrder, seconds: number): string {
  const late = behindWords(plan, order.train, seconds);
  return `${plan.name}, order ${place + 1} of ${plan.count}${late === '' ? '' : `: ${late}`}.`;
}

/** Why it is the one: "No. 24 to 3 has its turn, order 2 of 6 of Plan 1: No. 3 has left 5 Mill." */
export function plannedWhy(plan: PlanNow, { order, place, after }: PlannedOrder): string {
  const over = waitedWords(plan.railroad, { is: 'held', until: after, behind: null });
  const turn = `${orderWords(plan.railroad, order)} has its turn, order ${place + 1} of ${plan.count} of ${plan.name}`;
  return over === '' ? `${turn}.` : `${turn}: ${over}.`;
}

/** What a train waits for by the plan: "until No. 3 has left 5 Mill"; empty where nothing holds it. */
export function heldBy({ plan }: Pick<LineContext, 'plan'>, train: TrainId): string {
  const held = plan?.held.get(train);
  return plan == null || held === undefined ? '' : `until ${waitedWords(plan.railroad, held.turn)}`;
}

/** Trains that the plan does not fit any more, each in a sentence. */
export const strayWords = ({ name, railroad, astray, trains }: PlanNow): readonly string[] =>
  [...astray].flatMap(([train, block]) =>
    trains.has(train)
      ? [
          `${railroad.trains.get(train)?.name ?? train} is in ${blockName(railroad, block)}, off its way in ${name}.`,
        ]
      : [],
  );

/** How the plan goes on where none of its orders has its turn. */
export function planWaits(plan: PlanNow): string {
  const [first] = plan.held.values();
  return first === undefined
    ? `${plan.name}: every order is given.`
    : `${plan.name}: ${orderWords(plan.railroad, first.order.order)} until ${waitedWords(plan.railroad, first.turn)}.`;
}
