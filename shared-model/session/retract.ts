/** Retraction: the state is the fold without an input typed by mistake, as long as no later input rests on it. */

import type { Evening } from './evening-record.ts';
import type { SessionEvent } from './event.ts';
import { changesBetween } from './fold.ts';
import { type InputOf, isRetractable, type TimedInput } from './input.ts';
import { fitsPhase, judge } from './judge.ts';
import { notNow } from './orders/train-orders.ts';
import { settleRuling } from './step.ts';
import { type World, withState } from './world.ts';

/** The entries that were retracted before. */
export function retractedEntries(events: readonly SessionEvent[]): ReadonlySet<number> {
  return new Set(
    events.flatMap(({ input, outcome }) =>
      input.do === 'retract' && outcome !== 'refused' ? [input.entry] : [],
    ),
  );
}

const verdict = ({ outcome, reasons }: SessionEvent): string =>
  JSON.stringify([outcome, reasons.map(({ code, about }) => [code, about])]);

/**
 * Folds the inputs again without some of them; other retractions are passed over.
 *
 * @returns the world, or the number of the first entry after `from` whose verdict would differ
 */
export function foldWithout(
  evening: Pick<Evening, 'railroad' | 'initial' | 'events' | 'lookAhead'>,
  without: ReadonlySet<number>,
  from: number,
): { readonly world: World } | { readonly differs: number } {
  let world: World = { railroad: evening.railroad, state: evening.initial, lookAhead: evening.lookAhead };
  for (const event of evening.events) {
    if (without.has(event.entry) || event.input.do === 'retract') continue;
    const numbered = withState(world, { entries: event.entry - 1 });
    const again = settleRuling(numbered, event, judge(numbered, event.input, event.at));
    if (event.entry > from && verdict(again.event) !== verdict(event)) return { differs: event.entry };
    world = again.world;
  }
  return { world };
}

/** Judges a retraction. It is itself an event; nothing is erased. */
export function retract(
  evening: Evening,
  timed: TimedInput & { readonly input: InputOf<'retract'> },
): { readonly event: SessionEvent } {
  const world: World = { railroad: evening.railroad, state: evening.state, lookAhead: evening.lookAhead };
  const { entry } = timed.input;
  const refuse = (...about: string[]) => settleRuling(world, timed, notNow(world, ...about));
  if (!fitsPhase(world, timed.input)) return refuse();
  const event = evening.events.find((other) => other.entry === entry);
  const earlier = retractedEntries(evening.events);
  const may = event !== undefined && isRetractable(event.input);
  if (!may || earlier.has(entry)) return refuse(String(entry));
  const folded = foldWithout(evening, new Set([...earlier, entry]), entry);
  if ('differs' in folded) return refuse(String(folded.differs));
  const number = world.state.entries + 1;
  const after = withState(folded.world, { entries: number, at: timed.at });
  return {
    event: {
      entry: number,
      at: timed.at,
      input: timed.input,
      ...(timed.impliedBy === undefined ? {} : { impliedBy: timed.impliedBy }),
      outcome: 'done',
      reasons: [],
      changes: changesBetween(world.state, after.state),
    },
  };
}
