/** How long a train is let stand so that it need not stop on its way behind one that is known to be late. */
import type { BlockId, TrainId } from '../../../shared-model/ids.ts';
import type { HowFar } from '../../../shared-model/planning/carry-out/how-far.ts';
import type { KeptPlan } from '../../../shared-model/planning/carry-out/keep-order.ts';
import type { PlanOptions } from '../../../shared-model/planning/plan/options.ts';
import type { PlanOrder } from '../../../shared-model/planning/rehearsal/plan-orders.ts';
import type { Throw } from '../../../shared-model/session/state.ts';

/** A throw of the plan with the stay that it is for, and whoever has to have been in, and left, what it touches before. */
export interface AheadThrow {
  readonly train: TrainId;
  readonly one: Throw;
  readonly at: number;
  readonly after: readonly { readonly train: TrainId; readonly block: BlockId; readonly times: number }[];
}

interface Now {
  readonly kept: KeptPlan;
  readonly far: HowFar;
  readonly throwsAhead: readonly AheadThrow[];
  readonly options: PlanOptions;
}

/** How long before its head comes to the first block of an order the way is free there, in the plan. */
function slackOf({ throwsAhead, options }: Now, { at, enters, train }: PlanOrder): number {
  const [first] = enters;
  if (first === undefined) return 0;
  const thrown = throwsAhead
    .filter((one) => one.train === train && one.one.block === first.block)
    .map((one) => one.at + options.throwSeconds);
  return Math.max(0, (first.headIn ?? 0) - Math.max(at, ...thrown) - options.marginSeconds);
}

/**
 * How much later than planned a move should begin: those whose leaving its later orders wait for are so late, less what there is to spare.
 *
 * @param place of the order with which the move begins
 * @param latenessOf as far as anybody can know by now
 */
export function laterBy(now: Now, place: number, latenessOf: (train: TrainId) => number): number {
  const { orders } = now.kept;
  const of = orders[place]?.order;
  const ahead = orders.filter(
    ({ order }, other) => other > place && order.move === of?.move && order.train === of.train,
  );
  const late = ahead.flatMap(({ after, order }) =>
    after
      .filter(({ train, stay }) => (now.far.get(train)?.left ?? 0) <= stay)
      .map(({ train }) => latenessOf(train) - slackOf(now, order)),
  );
  return Math.max(0, ...late);
}
