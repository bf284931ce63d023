/** An evening made of a situation: the same rules as live, on a state of its own, so that what is planned is judged as it would be. */
import type { ThrottleId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { isThrown } from '../../railroad/travel.ts';
import { type Evening, newEvening, take } from '../../session/evening.ts';
import type { CarriedOver } from '../../session/initial.ts';
import type { SessionInput } from '../../session/input.ts';
import { lookAhead } from '../look-ahead.ts';
import type { Situation } from '../situation.ts';

/** Who has the cabs where nobody is named: a cab needs a person to be granted anything. */
const SOMEBODY = 'somebody';

export interface ForkedEvening {
  readonly evening: Evening;
  /** What the rules say against a train where it is put, in sentences. */
  readonly problems: readonly string[];
}

/**
 * @param known tags and phase checks to go by, and who has which cab
 */
export function eveningOfSituation(
  railroad: Railroad,
  situation: Situation,
  known: Pick<CarriedOver, 'tags' | 'checks'> & {
    readonly people?: Readonly<Partial<Record<ThrottleId, string | null>>>;
  } = {},
): ForkedEvening {
  const { people, ...carried } = known;
  let evening = newEvening(railroad, carried, lookAhead);
  const problems: string[] = [];
  const say = (input: SessionInput) => {
    const taken = take(evening, { at: 0, input });
    evening = taken.evening;
    if (taken.event.outcome !== 'done') problems.push(...taken.event.reasons.map(({ says }) => says));
  };
  say({ do: 'open-session', alone: true });
  // Reported, and not carried over: in a rehearsal no position is presumed.
  for (const [selector, position] of situation.selectors)
    say({ do: 'selector-stands-at', selector, position });
  for (const { id } of railroad.document.nodes.filter(isThrown))
    say({
      do: 'turnout-stands-at',
      turnout: id,
      position: situation.turnouts.get(id) ?? 'normal',
    });
  for (const [toggle, on] of situation.toggles) say({ do: 'toggle-stands-at', toggle, on });
  for (const { id } of railroad.document.throttles)
    say({ do: 'assign-cab', cab: id, person: people?.[id] ?? SOMEBODY });
  for (const train of situation.trains) {
    const [head] = train.trail;
    if (head !== undefined) say({ do: 'place-train', train: train.id, ...head, cab: train.cab });
  }
  say({ do: 'start' });
  return { evening, problems };
}
