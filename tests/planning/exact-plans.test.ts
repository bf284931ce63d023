/** What is claimed to be proven, or impossible, against searches by a second reading that try everything. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from '../support/chance.ts';
import { exactTotal } from '../support/exact-plan.ts';
import { exhaustiveSafe } from '../support/exhaustive-safe.ts';
import { plainNodes, type SmallTrack, turnout } from '../support/line-of-track.ts';
import { plainRailroad } from '../support/plain-situation.ts';
import { randomRailroad } from '../support/random-railroad.ts';
import { randomSituation } from '../support/random-situation.ts';
import { situationOf, stepRailroad, trainsAt } from '../support/step-track.ts';
import { SECOND_OPTIONS, SPEED, wholeCase } from '../support/whole-seconds.ts';

const planned = (
  railroad: Parameters<typeof plan>[0],
  situation: Parameters<typeof plan>[1],
  patience = 1000,
) => plan(railroad, situation, SECOND_OPTIONS, { draw: drawsFrom(1), shouldStop: () => false, patience });

describe('a plan that is called proven', () => {
  it.each([
    [1, 12, 6],
    [2, 16, 8],
  ])('of %i trains has the least total that any plan has', (trains, seeds, leastProven) => {
    let proven = 0;
    for (let seed = 1; seed <= seeds; seed += 1) {
      const one = wholeCase(seed, 8, trains);
      if (one === null) continue;
      const answer = planned(one.railroad, one.situation);
      if (!answer.proven || answer.total === null) continue;
      expect(planFaults(one.railroad, one.situation, answer, SECOND_OPTIONS), `${seed}`).toEqual([]);
      const least = exactTotal(
        plainRailroad(one.document),
        one.json,
        SECOND_OPTIONS,
        SPEED,
        answer.total + 0.5,
        4000,
      );
      if (least === null) continue;
      proven += 1;
      expect(answer.total, `${seed}`).toBeCloseTo(least, 6);
    }
    expect(proven).toBeGreaterThanOrEqual(leastProven);
  });

  it('is not called so where the words before a start and what is lost at it count', () => {
    const one = wholeCase(1, 8, 2);
    if (one === null) throw new Error('expected two trains');
    const options = { ...SECOND_OPTIONS, talkSeconds: 6, startSeconds: 4 };
    const answer = plan(one.railroad, one.situation, options, {
      draw: drawsFrom(1),
      shouldStop: () => false,
      patience: 500,
    });
    expect(answer.verdict).toBe('planned');
    expect(answer.proven).toBe((answer.total ?? 0) <= (answer.lowerBound ?? 0) + 1e-6);
  });
});

describe('a turnout that lies in one block with the stop before it', () => {
  // The gap g2 is cut into B, whose two sides are joined by the track s: a head there stands in the block of T2 already.
  const track: SmallTrack = {
    nodes: [
      ...plainNodes('n1', 'g1', 'g2', 'g3', 'n3'),
      turnout('T1', 'm1', 'b1', 's'),
      turnout('T2', 'm2', 'b2', 's'),
    ],
    edges: [
      ['a', 'n1', 'g1', 2000],
      ['b1', 'g1', 'T1', 1000],
      ['m1', 'T1', 'g2', 2000],
      ['m2', 'g2', 'T2', 1000],
      ['b2', 'T2', 'g3', 1000],
      ['s', 'T1', 'T2', 1000],
      ['c', 'g3', 'n3', 2000],
    ],
    blocks: { A: 'a', B: 'b1', C: 'c' },
  };
  const railroad = stepRailroad(track, 1);
  const reversed = { turnouts: { T2: 'reverse' } as never };
  it('is thrown before the train comes into the block', () => {
    const situation = situationOf(railroad, { ...trainsAt({ at: 'a:g1', to: 'C' }), ...reversed });
    const answer = planned(railroad, situation);
    expect(answer.verdict).toBe('planned');
    expect(planFaults(railroad, situation, answer, SECOND_OPTIONS)).toEqual([]);
    const thrown = answer.throws.find(({ id }) => id === 'T2');
    expect(thrown?.at).toBeLessThan(answer.moves[0]?.start ?? 0);
  });
  it('is thrown by nobody while it stands there: impossible, though the track alone would allow it', () => {
    const situation = situationOf(railroad, { ...trainsAt({ at: 'm1:g2', to: 'C' }), ...reversed });
    expect(safe(railroad, situation).verdict).toBe('safe');
    expect(planned(railroad, situation).verdict).toBe('impossible');
    const straight = situationOf(railroad, trainsAt({ at: 'm1:g2', to: 'C' }));
    expect(planned(railroad, straight).verdict).toBe('planned');
  });
});

describe('a section behind a toggle', () => {
  it('is not entered while another train stands in its parent for good, whatever order of priority is tried', () => {
    const seed = 503_161;
    const railroad = indexRailroad(randomRailroad(seed, 4));
    const made = randomSituation(railroad, chanceOf(seed * 11 + 5), {
      trains: 3,
      parkedInHundred: 20,
      reversalsInHundred: 30,
      reachable: true,
    });
    if (made === null) throw new Error('expected three trains');
    expect(exhaustiveSafe(railroad, made.situation, 5000)?.safe).toBe(false);
    expect(safe(railroad, made.situation).verdict).toBe('gridlock');
  });
});

describe('two trains over one insulated crossing at first', () => {
  it('are no fault of a plan that moves neither', () => {
    const seed = 500_657;
    const railroad = indexRailroad(randomRailroad(seed, 3 + (seed % 14)));
    const made = randomSituation(railroad, chanceOf(seed * 11 + 5), {
      trains: 3,
      parkedInHundred: 20,
      reversalsInHundred: 30,
      reachable: true,
    });
    if (made === null) throw new Error('expected two trains');
    const answer = plan(railroad, made.situation, USUAL_OPTIONS, {
      draw: drawsFrom(1),
      shouldStop: () => false,
      patience: 20,
    });
    expect(answer.verdict).toBe('planned');
    expect(planFaults(railroad, made.situation, answer, USUAL_OPTIONS)).toEqual([]);
  });
});
