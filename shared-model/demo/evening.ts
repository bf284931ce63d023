/** The demo evening: what was said and done on the demo railroad, an input at a time. */
import { throttleId } from '../ids.ts';
import type { SessionInput, TimedInput } from '../session/input.ts';

/** Who comes; invented, first names alone. */
const PEOPLE = ['Avery', 'Blake', 'Kim', 'Robin'] as const;

/**
 * Inputs with their seconds, as they go through the rules.
 *
 * @param seed which evening: the same seed always gives the same one
 */
export function demoEvening(seed = 0): readonly TimedInput[] {
  const assigned = ['1', '2'].map(
    (cab, index): SessionInput => ({
      do: 'assign-cab',
      cab: throttleId.parse(cab),
      person: PEOPLE[(seed + index) % PEOPLE.length] ?? PEOPLE[0],
    }),
  );
  const inputs: readonly SessionInput[] = [
    { do: 'open-session' },
    ...assigned,
    { do: 'start' },
    { do: 'end-session' },
  ];
  return inputs.map((input, index) => ({ at: index * 10, input }));
}
