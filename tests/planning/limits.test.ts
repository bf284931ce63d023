/** What bounds the memory of the searches: they count what they keep, and stop. */
import { describe, expect, it } from 'vitest';
import { safe } from '../../shared-model/planning/safe.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from '../support/chance.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';

/** Beyond its budget a search finishes what it has begun: the standings of every train, one order of priority. */
const BEGUN = 3000;

function crowded(seed: number) {
  const railroad = indexRailroad(randomRailroad(seed, 14));
  const made = randomSituation(railroad, chanceOf(seed), { trains: 5, reachable: true });
  return made === null ? [] : [{ railroad, situation: made.situation }];
}
const cases = Array.from({ length: 80 }, (_, index) => crowded(index + 1)).flat();

describe('the search for a safe state', () => {
  it.each([0, 300, 3000])('with %i states to look at stops near them, and then has not decided', (states) => {
    for (const { railroad, situation } of cases) {
      const answer = safe(railroad, situation, { states });
      expect(answer.states).toBeLessThanOrEqual(states + BEGUN);
      const whole = safe(railroad, situation).verdict;
      if (answer.verdict !== 'undecided') expect(answer.verdict).toBe(whole);
    }
  });

  it('with nothing to look at leaves open what it could decide', () => {
    const open = cases.filter(
      ({ railroad, situation }) => safe(railroad, situation, { states: 0 }).verdict === 'undecided',
    );
    expect(open.length).toBeGreaterThan(0);
  });
});
