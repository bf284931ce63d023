/** An evening: the railroad, the state before anything was said, every event since, and the state that they fold to. */
import type { Railroad } from '../railroad/railroad.ts';
import type { BatchItem } from './batch.ts';
import type { Evening } from './evening-record.ts';
import type { SessionEvent } from './event.ts';
import { evolve, foldEvents } from './fold.ts';
import { type CarriedOver, initialState } from './initial.ts';
import type { TimedInput } from './input.ts';
import { judge } from './judge.ts';
import { retract } from './retract.ts';
import type { SessionState } from './state.ts';
import { settleRuling } from './step.ts';
import type { LookAhead, World } from './world.ts';

export type { Evening } from './evening-record.ts';
export { problemWith } from './problem-with.ts';

/** A fresh evening. */
export function newEvening(railroad: Railroad, carried: CarriedOver = {}, lookAhead?: LookAhead): Evening {
  const initial = initialState(railroad, carried);
  return { railroad, initial, state: initial, events: [], lookAhead };
}

/** An evening as its log has it. */
export function eveningOf(
  railroad: Railroad,
  initial: SessionState,
  events: readonly SessionEvent[],
  lookAhead?: LookAhead,
): Evening {
  return { railroad, initial, state: foldEvents(initial, events), events, lookAhead };
}

export const worldOf = ({ railroad, state, lookAhead }: Evening): World => ({ railroad, state, lookAhead });

/**
 * Takes one input. Names have been checked at the border (`problemWith`), and `at` does not go back.
 *
 * @returns the evening after it and the event to be logged; a refusal is an event too and changes nothing but an ask
 */
export function take(
  evening: Evening,
  timed: TimedInput,
): { readonly evening: Evening; readonly event: SessionEvent } {
  const world = worldOf(evening);
  const { event } =
    timed.input.do === 'retract'
      ? retract(evening, { ...timed, input: timed.input })
      : settleRuling(world, timed, judge(world, timed.input, timed.at));
  return {
    evening: { ...evening, state: evolve(evening.state, event), events: [...evening.events, event] },
    event,
  };
}

export type BatchAnswer =
  | { readonly ok: true; readonly evening: Evening; readonly events: readonly SessionEvent[] }
  /** Nothing of the batch was carried out; `event` is the refusal that stopped it, logged in `evening`. */
  | { readonly ok: false; readonly evening: Evening; readonly event: SessionEvent };

/**
 * Takes a batch whole or not at all. An item with `otherwise` may be refused: its refusal is logged and the report is taken instead.
 */
export function takeBatch(evening: Evening, at: number, items: readonly BatchItem[]): BatchAnswer {
  let now = evening;
  const events: SessionEvent[] = [];
  for (const { input, impliedBy, otherwise } of items) {
    const taken = take(now, { at, input, impliedBy });
    if (taken.event.outcome === 'refused' && otherwise === undefined) {
      const alone = take(evening, { at, input, impliedBy });
      return alone.event.outcome === 'refused'
        ? { ok: false, evening: alone.evening, event: alone.event }
        : { ok: false, evening, event: taken.event };
    }
    now = taken.evening;
    events.push(taken.event);
    if (taken.event.outcome === 'refused' && otherwise !== undefined) {
      const instead = take(now, { at, input: otherwise, impliedBy });
      now = instead.evening;
      events.push(instead.event);
    }
  }
  return { ok: true, evening: now, events };
}
