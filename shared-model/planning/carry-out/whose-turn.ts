/** Whose turn it is: which orders of a kept plan may be given now, and what the others wait for. */
import { authorityOf } from '../../session/facts/authorities.ts';
import type { SessionState } from '../../session/state.ts';
import type { HowFar } from './how-far.ts';
import type { KeptOrder, KeptPlan, StayToEnd } from './keep-order.ts';

export type Turn =
  /** It was given, or its train has gone so far without it. */
  | { readonly is: 'given' }
  /** It may be given now. */
  | { readonly is: 'next' }
  /** It is not its turn: these stays have to be over first, or the order before it of the same train has to be given. */
  | { readonly is: 'held'; readonly until: readonly StayToEnd[]; readonly behind: KeptOrder | null };

function isPast({ order, enters }: KeptOrder, far: HowFar): boolean {
  const last = enters.at(-1);
  return last !== undefined && (far.get(order.train)?.entered ?? 0) > last;
}

/**
 * The turn of each order of a plan, in its order.
 *
 * @param given places of the orders that were given
 */
export function turnsOf(plan: KeptPlan, far: HowFar, given: ReadonlySet<number>): readonly Turn[] {
  const isGiven = plan.orders.map((kept, place) => given.has(place) || isPast(kept, far));
  return plan.orders.map((kept, place): Turn => {
    if (isGiven[place] === true) return { is: 'given' };
    const before = plan.orders.findIndex(
      ({ order }, other) => other < place && order.train === kept.order.train && isGiven[other] !== true,
    );
    const until = kept.after.filter(({ train, stay }) => (far.get(train)?.left ?? 0) <= stay);
    const behind = plan.orders[before] ?? null;
    return until.length === 0 && behind === null ? { is: 'next' } : { is: 'held', until, behind };
  });
}

/** Those of the orders that were given that still hold: run, or in force to their end. One that was annulled on the Desk may be given again. */
export function stillGiven(
  { orders, ways }: KeptPlan,
  far: HowFar,
  given: readonly number[],
  state: SessionState,
): ReadonlySet<number> {
  return new Set(
    given.filter((place) => {
      const kept = orders[place];
      if (kept === undefined) return false;
      const { train } = kept.order;
      const end = ways.get(train)?.[kept.enters.at(-1) ?? -1];
      return (
        isPast(kept, far) ||
        end === undefined ||
        authorityOf(state, train)?.authority.blocks.includes(end) === true
      );
    }),
  );
}
