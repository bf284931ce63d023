/** A few minutes into an evening on the demo railroad: No. 7 stands in 3 (Cab 1, Avery), No. 12 in 10 (Cab 2, Blake), Kim has Cab 3. */
import type { LineContext } from '../../../renderer/desk/entry-line/reading.ts';
import { demoRailroad } from '../../../shared-model/demo/railroad.ts';
import { indexRailroad } from '../../../shared-model/railroad/railroad.ts';
import { type Evening, newEvening, take } from '../../../shared-model/session/evening.ts';
import type { Outcome, SessionEvent } from '../../../shared-model/session/event.ts';
import { type SessionInput, sessionInput } from '../../../shared-model/session/input.ts';

export const railroad = indexRailroad(demoRailroad);

/** An input as a script has it: ids are plain words there. */
export const input = (plain: object): SessionInput => sessionInput.parse(plain);

/** The evening after some inputs, one second apart, none of which is refused. */
export function played(evening: Evening, ...inputs: readonly object[]): Evening {
  return inputs.reduce<Evening>((now, plain) => {
    const taken = take(now, { at: now.state.at + 1, input: input(plain) });
    if (taken.event.outcome === 'refused')
      throw new Error(`${taken.event.input.do}: ${taken.event.reasons.map(({ says }) => says).join(' ')}`);
    return taken.evening;
  }, evening);
}

/** The evening after one input, whatever comes of it. */
export function taken(
  evening: Evening,
  plain: object,
): { evening: Evening; event: SessionEvent; outcome: Outcome } {
  const { evening: next, event } = take(evening, { at: evening.state.at + 1, input: input(plain) });
  return { evening: next, event, outcome: event.outcome };
}

export const madeUp = played(
  newEvening(railroad),
  { do: 'open-session' },
  { do: 'assign-cab', cab: '1', person: 'Avery' },
  { do: 'assign-cab', cab: '2', person: 'Blake' },
  { do: 'assign-cab', cab: '3', person: 'Kim' },
  { do: 'place-train', train: 't7', edge: 'e6', toward: 'g4', cab: '1' },
  { do: 'place-train', train: 't12', edge: 'e34', toward: 'g14', cab: '2' },
);
export const running = played(madeUp, { do: 'start' });

export const contextOf = ({ state, events }: Evening): LineContext => ({ railroad, state, recent: events });
