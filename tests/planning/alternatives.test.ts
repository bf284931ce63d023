/** Another plan for the same: really another, with another way of a train or another one first in some block, and good by itself. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import type { PlanAnswer, PlanMove } from '../../shared-model/planning/plan-answer.ts';
import type { Situation } from '../../shared-model/planning/situation.ts';
import { planTiming } from '../../shared-model/planning/timing.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { lineTrack, situationOf, stationsTrack, stepRailroad, trainsAt } from '../support/step-track.ts';
import { demo, SCREEN_OPTIONS, threeTrains } from '../support/three-trains.ts';

/** Asked whether to stop, it does after so many questions. */
const MOST_ASKED = 3000;

function planned(
  railroad: Railroad,
  situation: Situation,
  unlike: readonly (readonly PlanMove[])[],
  options = USUAL_OPTIONS,
) {
  let asked = 0;
  return plan(railroad, situation, options, {
    draw: drawsFrom(1),
    shouldStop: () => {
      asked += 1;
      return asked > MOST_ASKED;
    },
    patience: 200,
    unlike,
  });
}

/** The ways of the trains, and who has each block after whom. */
function likeness(
  railroad: Railroad,
  situation: Situation,
  answer: PlanAnswer,
  options = USUAL_OPTIONS,
): string {
  const ways = situation.trains.map(({ id }) =>
    answer.moves.filter(({ train }) => train === id).flatMap(({ edges }) => edges),
  );
  const { order } = planTiming(railroad, situation, answer, options);
  const orders = order.map(({ block, trains }) => `${block}:${trains.join()}`).sort();
  return JSON.stringify([ways, orders]);
}

function alternatives(railroad: Railroad, situation: Situation, count: number, options = USUAL_OPTIONS) {
  const found: PlanAnswer[] = [];
  while (found.length < count) {
    const answer = planned(
      railroad,
      situation,
      found.map(({ moves }) => moves),
      options,
    );
    if (answer.verdict !== 'planned') break;
    expect(planFaults(railroad, situation, answer, options)).toEqual([]);
    found.push(answer);
  }
  return found;
}

describe('another plan', () => {
  it('of two trains that want the same single track has the other one first', () => {
    const railroad = stepRailroad(stationsTrack([2, 1, 2]), 2);
    const situation = situationOf(
      railroad,
      trainsAt({ at: 'e-S00:g-1wx0', to: 'S2a' }, { at: 'e-S01:g-1wx1', to: 'S2b' }),
    );
    const found = alternatives(railroad, situation, 2);
    const firsts = found.map(({ moves }) => moves.find(({ blocks }) => blocks[0] === 'P1')?.train);
    expect([...firsts].sort()).toEqual(['t1', 't2']);
  });
  it('of the three trains of the Rehearsal goes another way or has another order, three times over, each good by itself', () => {
    const situation = threeTrains();
    const found = alternatives(demo, situation, 3, SCREEN_OPTIONS);
    expect(found).toHaveLength(3);
    const likenesses = found.map((answer) => likeness(demo, situation, answer, SCREEN_OPTIONS));
    expect(new Set(likenesses)).toHaveProperty('size', 3);
  });
  it('is not made up where there is none: a train alone on a line', () => {
    const railroad = stepRailroad(lineTrack(['A', 'B', 'C']), 1);
    const situation = situationOf(railroad, trainsAt({ at: 'e-A:g1', to: 'C' }));
    const [only] = alternatives(railroad, situation, 2);
    expect(only?.verdict).toBe('planned');
    const another = planned(railroad, situation, [only?.moves ?? []]);
    expect(another.verdict).toBe('undecided');
  });
  it('of moves that are none of these trains bars nothing', () => {
    const railroad = stepRailroad(lineTrack(['A', 'B', 'C']), 1);
    const situation = situationOf(railroad, trainsAt({ at: 'e-A:g1', to: 'C' }));
    const strange = {
      train: 't1',
      blocks: ['X'],
      edges: ['nowhere'],
      start: 0,
      end: 9,
    } as unknown as PlanMove;
    expect(planned(railroad, situation, [[strange]]).verdict).toBe('planned');
  });
});
