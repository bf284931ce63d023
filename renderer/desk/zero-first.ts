/** A throw that waits for nothing but handles at zero is next: the words say whose, and its confirm says that they are. */
import type { SelectorId, ThrottleId } from '../../shared-model/ids.ts';
import { selectorAgainst } from '../../shared-model/session/orders/knob-orders.ts';
import type { Throw } from '../../shared-model/session/state.ts';
import type { World } from '../../shared-model/session/world.ts';
import type { PendingThrow } from './pending-throw.ts';

/** The cabs that have to be at zero, one after the other, before this turn of a dial is taken; null when it waits for more than that. */
function cabsPassed(world: World, { id, to }: Throw): readonly ThrottleId[] | null {
  const zero: ThrottleId[] = [];
  let { state } = world;
  for (const _ of world.railroad.document.throttles) {
    const reasons = selectorAgainst({ ...world, state }, id as SelectorId, to as ThrottleId | 'off');
    if (reasons.length === 0) return zero;
    const cab = reasons.every(({ code }) => code === 'sweeps-live-position')
      ? (reasons[0]?.about[1] as ThrottleId | undefined)
      : undefined;
    const now = cab === undefined ? undefined : state.cabs[cab];
    if (cab === undefined || now === undefined || zero.includes(cab)) return null;
    zero.push(cab);
    state = { ...state, cabs: { ...state.cabs, [cab]: { ...now, atZero: true } } };
  }
  return null;
}

/** The throw with what it really waits for: nothing but handles at zero, or the things of the first reason that would refuse it. */
export function withZeroFirst(world: World, pending: PendingThrow): PendingThrow {
  const { thrown } = pending;
  const ownDial = thrown.waitsFor.length === 0 || thrown.waitsFor[0] === thrown.id;
  if (thrown.kind !== 'selector' || !ownDial) return pending;
  const zeroFirst = cabsPassed(world, thrown);
  if (zeroFirst === null) {
    const [first] = selectorAgainst(world, thrown.id as SelectorId, thrown.to as ThrottleId | 'off');
    return { ...pending, thrown: { ...thrown, waitsFor: first?.about ?? [] } };
  }
  const waitsForNothing = { ...pending, thrown: { ...thrown, waitsFor: [] } };
  return zeroFirst.length === 0 ? waitsForNothing : { ...waitsForNothing, zeroFirst };
}
