/** Safe states and plans on random situations: against the plainest exhaustive search, and every witness and plan through the independent checker. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { witnessFault } from '../../shared-model/planning/checker/check-witness.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from '../support/chance.ts';
import { exhaustiveSafe } from '../support/exhaustive-safe.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';

const SITUATIONS = 400;
const MOST_STATES = 20_000;

function situations(reversalsInHundred: number) {
  return Array.from({ length: SITUATIONS }, (_, index) => index + 1).flatMap((seed) => {
    const railroad = indexRailroad(randomRailroad(seed, 4 + (seed % 10)));
    const made = randomSituation(railroad, chanceOf(seed), {
      trains: 2 + (seed % 3),
      parkedInHundred: 15,
      reversalsInHundred,
    });
    return made === null ? [] : [{ seed, railroad, situation: made.situation }];
  });
}

describe('a safe state', () => {
  it('is one that an exhaustive search calls safe, and its witness checks', () => {
    const verdicts = new Set<string>();
    for (const { seed, railroad, situation } of situations(20)) {
      const { verdict, witness } = safe(railroad, situation);
      verdicts.add(verdict);
      if (verdict === 'safe') expect(witnessFault(railroad, situation, witness ?? []), `${seed}`).toBeNull();
      const all = exhaustiveSafe(railroad, situation, MOST_STATES);
      if (all !== null && verdict !== 'undecided') expect(verdict === 'safe', `${seed}`).toBe(all.safe);
    }
    expect(verdicts).toContain('safe');
    expect(verdicts).toContain('gridlock');
  });
});

describe('a plan', () => {
  it('has no fault that the checker finds, and is there where the state is safe and the hands can do it', () => {
    let planned = 0;
    let byHands = 0;
    for (const { seed, railroad, situation } of situations(0)) {
      const options = seed % 3 === 0 ? { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 } : USUAL_OPTIONS;
      const answer = plan(railroad, situation, options, {
        draw: drawsFrom(seed),
        shouldStop: () => false,
        patience: 50,
      });
      if (answer.verdict === 'undecided') continue;
      const isSafe = safe(railroad, situation).verdict === 'safe';
      // A turnout under a train that waits before it can be thrown by nobody, though the track alone would do (`exact-plans.test.ts`).
      if (answer.verdict === 'impossible' && isSafe) byHands += 1;
      else expect(answer.verdict === 'planned', `${seed}`).toBe(isSafe);
      if (answer.verdict !== 'planned') continue;
      planned += 1;
      expect(planFaults(railroad, situation, answer, options), `${seed}`).toEqual([]);
      expect(answer.total ?? 0).toBeGreaterThanOrEqual((answer.lowerBound ?? 0) - 1e-6);
    }
    expect(planned).toBeGreaterThan(30);
    expect(byHands).toBeLessThan(planned / 10);
  });

  it('is rejected by the checker when a move starts too early', () => {
    const late = situations(0).flatMap(({ railroad, situation, seed }) => {
      const answer = plan(railroad, situation, USUAL_OPTIONS, {
        draw: drawsFrom(seed),
        shouldStop: () => false,
        patience: 10,
      });
      const move = answer.moves.find(({ start }) => start > 1);
      return move === undefined ? [] : [{ railroad, situation, answer, move }];
    });
    expect(late.length).toBeGreaterThan(5);
    for (const { railroad, situation, answer, move } of late) {
      const moves = answer.moves.map((other) =>
        other === move ? { ...move, start: move.start - 1 } : other,
      );
      expect(planFaults(railroad, situation, { ...answer, moves }, USUAL_OPTIONS)).not.toEqual([]);
    }
  });
});
