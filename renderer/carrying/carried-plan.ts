/** A plan that was made real in the evening that goes on, as the Desk carries it out: what is kept of it, and what follows from it and from how far the trains are. */
import type { BlockId, TrainId } from '../../shared-model/ids.ts';
import { behindPlan } from '../../shared-model/planning/carry-out/behind-plan.ts';
import { coveredIn } from '../../shared-model/planning/carry-out/covered.ts';
import type { HowFar } from '../../shared-model/planning/carry-out/how-far.ts';
import {
  type KeptPlan,
  keepOrder,
  type StayToEnd,
} from '../../shared-model/planning/carry-out/keep-order.ts';
import { type Turn, turnsOf } from '../../shared-model/planning/carry-out/whose-turn.ts';
import { ordersOfPlan, type PlanOrder } from '../../shared-model/planning/rehearsal/plan-orders.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { planTiming } from '../../shared-model/planning/timing.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { Seconds } from '../../shared-model/units.ts';
import { z } from '../../shared-model/zod.ts';
import { keptRehearsal, type MadeReal } from '../rehearsal/kept-rehearsal.ts';

/** The kind under which the host keeps them, by the evening's id and the entry of the first order. */
export const CARRIED = 'plan-carried-out';

export const carriedPlan = z.strictObject({
  format: z.literal('cabward-carried-plan/1'),
  /** With where it was made real. */
  rehearsal: keptRehearsal,
  /** Put aside: it stays, and offers nothing. */
  aside: z.boolean(),
  /** Its end was said. */
  ended: z.boolean(),
});
export type CarriedPlan = z.infer<typeof carriedPlan>;

/** What of a plan does not change while it is carried out. */
export interface CarriedOrders {
  readonly name: string;
  readonly railroad: Railroad;
  readonly made: MadeReal;
  readonly kept: KeptPlan;
}

/** @returns null where it is no plan that was made real, or one that cannot be read on its own railroad */
export function ordersCarried({ rehearsal }: CarriedPlan): CarriedOrders | null {
  const { document, situation: json, plans, madeReal: made, underWay } = rehearsal;
  const plan = made === null ? undefined : plans[made.plan];
  if (made === null || plan === undefined) return null;
  const railroad = indexRailroad(document);
  const situation = parseSituation(railroad, json);
  if (!situation.ok) return null;
  const timing = planTiming(railroad, situation.value, plan.answer, plan.options);
  const orders = ordersOfPlan(railroad, situation.value, plan.answer.moves, timing);
  const way = new Map(underWay.map(({ train, blocks, entered }) => [train, { blocks, entered }]));
  return {
    name: plan.name,
    railroad,
    made,
    kept: keepOrder(railroad, situation.value, plan.answer, timing, orders, way),
  };
}

export interface PlannedOrder {
  /** Its place in the plan's list. */
  readonly place: number;
  readonly order: PlanOrder;
  /** What it waits for, or waited for. */
  readonly after: readonly StayToEnd[];
}

/** A plan at a moment of the evening. */
export interface PlanNow {
  readonly name: string;
  readonly railroad: Railroad;
  /** Orders that may be given now, in the order of the plan. */
  readonly next: readonly PlannedOrder[];
  /** The trains whose next order is held: that order, and what it waits for. */
  readonly held: ReadonlyMap<TrainId, { readonly order: PlannedOrder; readonly turn: Turn }>;
  readonly count: number;
  readonly given: number;
  /** Trains that have orders of it to come. */
  readonly trains: ReadonlySet<TrainId>;
  /** Trains that are in a block that is not on their way in it. */
  readonly astray: ReadonlyMap<TrainId, BlockId>;
  /** The session's second that was the plan's 0. */
  readonly began: Seconds;
  /** Seconds that each train is behind, at a second of the session. */
  readonly behind: (seconds: Seconds) => ReadonlyMap<TrainId, Seconds>;
}

export function planAt(
  { name, railroad, made, kept }: CarriedOrders,
  far: HowFar,
  state: SessionState,
): PlanNow {
  const turns = turnsOf(kept, far, coveredIn(kept, far, state));
  const left = kept.orders.flatMap(({ order, after }, place) => {
    const turn = turns[place];
    return turn === undefined || turn.is === 'given' ? [] : [{ order: { place, order, after }, turn }];
  });
  // A later order of a train is behind the one before it: while that one has its turn, nothing holds the train.
  const nextOf = new Map<TrainId, (typeof left)[number]>();
  for (const one of left) if (!nextOf.has(one.order.order.train)) nextOf.set(one.order.order.train, one);
  return {
    name,
    railroad,
    next: left.flatMap(({ order, turn }) => (turn.is === 'next' ? [order] : [])),
    held: new Map([...nextOf].filter(([, { turn }]) => turn.is === 'held')),
    count: kept.orders.length,
    given: kept.orders.length - left.length,
    trains: new Set(left.map(({ order }) => order.order.train)),
    astray: new Map([...far].flatMap(([train, { astray }]) => (astray === null ? [] : [[train, astray]]))),
    began: made.began,
    behind: (seconds) => behindPlan(kept, far, seconds - made.began),
  };
}
