/** W3 and W5 of the worked examples: minimal deadlocks on single track and the ring, as graphs and turned into railroads; every witness goes through the independent checker. */
import { describe, expect, it } from 'vitest';
import {
  afterOneRun,
  startStandings,
  witnessFault,
} from '../../shared-model/planning/checker/check-witness.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import type { Situation, SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { exhaustiveSafe } from '../support/exhaustive-safe.ts';
import { plainNodes, type SmallTrack, turnout } from '../support/line-of-track.ts';
import {
  fewestSteps,
  fewestStepsOnTrack,
  leastSumOfCosts,
  type StepProblem,
} from '../support/step-search.ts';
import {
  lineTrack,
  ringTrack,
  STEP_MM,
  situationOf,
  stationsTrack,
  stepRailroad,
  trainsAt,
} from '../support/step-track.ts';

function judged(railroad: Railroad, json: SituationJson) {
  const situation = situationOf(railroad, json);
  const answer = safe(railroad, situation);
  if (answer.verdict === 'safe') expect(witnessFault(railroad, situation, answer.witness ?? [])).toBeNull();
  return answer;
}

/** Two trains that want to change places. */
const swapping = (joins: StepProblem['joins'], one = 'A', other = 'B'): StepProblem => ({
  joins,
  trips: [
    [one, other],
    [other, one],
  ],
});
const SPUR: StepProblem['joins'] = [
  ['A', 'B'],
  ['B', 'C'],
  ['B', 'D'],
];
const LOOP: StepProblem['joins'] = [
  ['A', 'M'],
  ['A', 'S'],
  ['M', 'B'],
  ['S', 'B'],
];
const THROATS: StepProblem['joins'] = [
  ['A', 'W'],
  ['W', 'M'],
  ['W', 'S'],
  ['M', 'E'],
  ['S', 'E'],
  ['E', 'B'],
];

describe('W3: minimal single-track deadlocks, as graphs (computed by exhaustion; both rules: a place is entered only when it was empty before the step, and that of the literature)', () => {
  it('a) on a line of three, two trains cannot swap by either rule; three joint states can be reached', () => {
    const line = swapping(SPUR.slice(0, 2), 'A', 'C');
    for (const rule of ['strict', 'loose'] as const)
      expect(fewestSteps(line, rule)).toEqual({ steps: null, states: 3 });
  });
  it('b) with a spur off the middle they can: 4 steps by the literature, 6 strictly; sum of costs 7', () => {
    expect(fewestSteps(swapping(SPUR, 'A', 'C'), 'loose').steps).toBe(4);
    expect(fewestSteps(swapping(SPUR, 'A', 'C'), 'strict').steps).toBe(6);
    expect(leastSumOfCosts(swapping(SPUR, 'A', 'C'), 'loose')).toBe(7);
  });
  it.each([
    ['c) round a passing loop', LOOP, 2, 4],
    ['d) with throat blocks before the loop', THROATS, 4, 8],
  ] as const)('%s: %j takes %i steps by either rule, sum of costs %i', (_, joins, steps, sum) => {
    for (const rule of ['strict', 'loose'] as const) {
      expect(fewestSteps(swapping(joins), rule).steps).toBe(steps);
      expect(leastSumOfCosts(swapping(joins), rule)).toBe(sum);
    }
  });
});

describe('W3: the same as railroads (a block is entered only when empty)', () => {
  it('a) on a line of three, two trains cannot swap', () => {
    const line = stepRailroad(lineTrack(['A', 'B', 'C']), 2);
    const answer = judged(line, trainsAt({ at: 'e-A:g1', to: 'C' }, { at: 'e-C:g2', to: 'A' }));
    expect(answer).toMatchObject({
      verdict: 'gridlock',
      locked: { trains: ['t1', 't2'], blocks: ['A', 'C'] },
    });
    const json = trainsAt({ at: 'e-A:g1', to: 'C' }, { at: 'e-C:g2', to: 'A' });
    expect(exhaustiveSafe(line, situationOf(line, json), 100)).toEqual({ safe: false, states: 3 });
  });
  it('b) with a spur off the middle they can, in six steps, one of them after a change of facing in the spur', () => {
    const wye: SmallTrack = {
      nodes: [
        ...plainNodes('n1', 'n2', 'n3', 'ga', 'gc', 'gd'),
        turnout('Ta', 'a', 'ac', 'ad'),
        turnout('Tc', 'c', 'ac', 'cd'),
        turnout('Td', 'd', 'ad', 'cd'),
      ],
      edges: [
        ['e-A', 'n1', 'ga', STEP_MM],
        ['e-C', 'n2', 'gc', STEP_MM],
        ['e-D', 'n3', 'gd', STEP_MM],
        ['a', 'ga', 'Ta', 500],
        ['c', 'gc', 'Tc', 500],
        ['d', 'gd', 'Td', 500],
        ['ac', 'Ta', 'Tc', 500],
        ['ad', 'Ta', 'Td', 500],
        ['cd', 'Tc', 'Td', 500],
      ],
      blocks: { A: 'e-A', B: 'ac', C: 'e-C', D: 'e-D' },
    };
    const railroad = stepRailroad(wye, 2);
    const json = trainsAt({ at: 'e-A:ga', to: 'C' }, { at: 'e-C:gc', to: 'A' });
    expect(judged(railroad, json).verdict).toBe('gridlock');
    const answer = judged(railroad, { ...json, reversals: true });
    expect(answer.verdict).toBe('safe');
    expect(fewestStepsOnTrack(railroad, situationOf(railroad, { ...json, reversals: true }))).toBe(6);
  });
  it('c) round a passing loop, two runs each, two steps', () => {
    const railroad = stepRailroad(stationsTrack([1, 2, 1]), 2);
    const json = {
      ...trainsAt({ at: 'e-0ea:g-1w0', to: 'P2' }, { at: 'e-2wb:g-2wx1', to: 'P0' }),
      turnouts: { 'T-2w1': 'reverse' } as never,
    };
    const answer = judged(railroad, json);
    expect(answer.verdict).toBe('safe');
    expect(answer.witness).toHaveLength(4);
    expect(fewestStepsOnTrack(railroad, situationOf(railroad, json))).toBe(2);
  });
  it('d) with throat blocks before it, four runs each, four steps', () => {
    const railroad = stepRailroad(stationsTrack([1, 1, 2, 1, 1]), 2);
    const json = trainsAt({ at: 'e-P0:g-1w0', to: 'P4' }, { at: 'e-P4:g-4w0', to: 'P0' });
    const answer = judged(railroad, json);
    expect(answer.verdict).toBe('safe');
    expect(answer.witness).toHaveLength(8);
    expect(fewestStepsOnTrack(railroad, situationOf(railroad, json))).toBe(4);
  });
});

describe('W5: a ring of four blocks, all trains clockwise (computed: live iff at most three)', () => {
  const ring = stepRailroad(ringTrack(4), 4);
  const onRing = (count: number): SituationJson =>
    trainsAt(
      ...Array.from({ length: count }, (_, index) => ({
        at: `e-R${index + 1}:g${((index + 1) % 4) + 1}`,
        to: `R${((index + 1) % 4) + 1}`,
      })),
    );
  it.each([1, 2, 3])('%i trains all advance by one, in as many runs', (count) => {
    const answer = judged(ring, onRing(count));
    expect(answer.verdict).toBe('safe');
    expect(answer.witness).toHaveLength(count);
  });
  it.each([
    [1, 4, 0],
    [2, 6, 0],
    [3, 4, 0],
    [4, 1, 1],
  ])(
    'of the placements of %i trains, %i in all, %i are stuck: nobody can move',
    (count, placements, stuck) => {
      const spots = [1, 2, 3, 4];
      const sets = (from: number, size: number): readonly (readonly number[])[] =>
        size === 0
          ? [[]]
          : spots
              .slice(from)
              .flatMap((spot, index) => sets(from + index + 1, size - 1).map((rest) => [spot, ...rest]));
      const on = (places: readonly number[]): Situation =>
        situationOf(
          ring,
          trainsAt(
            ...places.map((place) => ({ at: `e-R${place}:g${(place % 4) + 1}`, to: `R${(place % 4) + 1}` })),
          ),
        );
      const all = sets(0, count).map(on);
      expect(all).toHaveLength(placements);
      const isStuck = (situation: Situation): boolean =>
        situation.trains.every(
          (train) => afterOneRun(ring, situation, startStandings(situation), train).length === 0,
        );
      expect(all.filter(isStuck)).toHaveLength(stuck);
      for (const situation of all)
        expect(safe(ring, situation).verdict).toBe(isStuck(situation) ? 'gridlock' : 'safe');
    },
  );
  it('three all advance by one in 3 strict steps; a full ring turns in 1 step by the literature, and strictly never', () => {
    const joins: StepProblem['joins'] = [1, 2, 3, 4].map((place) => [`R${place}`, `R${(place % 4) + 1}`]);
    const trips = joins.slice(0, 3);
    expect(fewestSteps({ joins, trips, oneWay: true }, 'strict').steps).toBe(3);
    expect(fewestStepsOnTrack(ring, situationOf(ring, onRing(3)))).toBe(3);
    expect(fewestSteps({ joins, trips: joins, oneWay: true }, 'loose').steps).toBe(1);
    expect(fewestSteps({ joins, trips: joins, oneWay: true }, 'strict').steps).toBeNull();
    expect(fewestStepsOnTrack(ring, situationOf(ring, onRing(4)))).toBeNull();
  });
  it('four are stuck', () => {
    expect(judged(ring, onRing(4))).toMatchObject({
      verdict: 'gridlock',
      locked: { trains: ['t1', 't2', 't3', 't4'] },
    });
  });
});
