/**
 * Worked examples with known answers, turned into railroads: W3 and W5 to W7; the source of each beside it. Every witness and every plan goes through the independent checker.
 */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { witnessFault } from '../../shared-model/planning/checker/check-witness.ts';
import { drawWishes, insertTrains } from '../../shared-model/planning/plan/insert-trains.ts';
import { type PlanOptions, USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { planTask } from '../../shared-model/planning/plan/plan-task.ts';
import { timetabler } from '../../shared-model/planning/plan/timetable.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { safe } from '../../shared-model/planning/safe.ts';
import { parseSituation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { plainNodes, type SmallTrack, turnout } from '../support/line-of-track.ts';
import {
  lineTrack,
  ringTrack,
  STEP_MM,
  stationsTrack,
  stepRailroad,
  trainsAt,
} from '../support/step-track.ts';

function situationOf(railroad: Railroad, json: SituationJson) {
  const parsed = parseSituation(railroad, json);
  if (!parsed.ok) throw new Error(`${parsed.malformed.path}: ${parsed.malformed.says}`);
  return parsed.value;
}

function judged(railroad: Railroad, json: SituationJson) {
  const situation = situationOf(railroad, json);
  const answer = safe(railroad, situation);
  if (answer.verdict === 'safe') expect(witnessFault(railroad, situation, answer.witness ?? [])).toBeNull();
  return answer;
}

describe('W3: minimal single-track deadlocks (exhaustive search, the strict rule: a block is entered only when empty)', () => {
  it('a) on a line of three, two trains cannot swap', () => {
    const line = stepRailroad(lineTrack(['A', 'B', 'C']), 2);
    const answer = judged(line, trainsAt({ at: 'e-A:g1', to: 'C' }, { at: 'e-C:g2', to: 'A' }));
    expect(answer).toMatchObject({
      verdict: 'gridlock',
      locked: { trains: ['t1', 't2'], blocks: ['A', 'C'] },
    });
  });
  it('b) with a spur off the middle they can, in six runs, one of them a change of facing in the spur', () => {
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
    expect(answer.witness?.length).toBeGreaterThanOrEqual(6);
  });
  it('c) round a passing loop, two runs each', () => {
    const railroad = stepRailroad(stationsTrack([1, 2, 1]), 2);
    const json = trainsAt({ at: 'e-0ea:g-1w0', to: 'P2' }, { at: 'e-2wb:g-2wx1', to: 'P0' });
    const answer = judged(railroad, { ...json, turnouts: { 'T-2w1': 'reverse' } });
    expect(answer.verdict).toBe('safe');
    expect(answer.witness).toHaveLength(4);
  });
  it('d) with throat blocks before it, four runs each', () => {
    const railroad = stepRailroad(stationsTrack([1, 1, 2, 1, 1]), 2);
    const answer = judged(railroad, trainsAt({ at: 'e-P0:g-1w0', to: 'P4' }, { at: 'e-P4:g-4w0', to: 'P0' }));
    expect(answer.verdict).toBe('safe');
    expect(answer.witness).toHaveLength(8);
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
  it('four are stuck', () => {
    expect(judged(ring, onRing(4))).toMatchObject({
      verdict: 'gridlock',
      locked: { trains: ['t1', 't2', 't3', 't4'] },
    });
  });
});

/** Nothing to throw that takes time, no margins: unit steps as the literature counts them, ten seconds each. */
const UNIT: PlanOptions = { ...USUAL_OPTIONS, throwSeconds: 0, marginSeconds: 0, throwsPerMinute: 60 };
/** A train so short that its tail costs nothing. */
const SHORT_MM = 1;

/** Two lines that cross in one block D. */
const cross: SmallTrack = {
  nodes: [
    ...plainNodes('n1', 'n2', 'n3', 'n4', 'g1', 'g2', 'g3', 'g4'),
    {
      id: 'X',
      kind: 'crossing',
      ways: [
        ['d1', 'd2'],
        ['d3', 'd4'],
      ],
      insulated: false,
    },
  ] as SmallTrack['nodes'],
  edges: [
    ['e-S1', 'n1', 'g1', STEP_MM],
    ['d1', 'g1', 'X', STEP_MM / 2],
    ['d2', 'X', 'g2', STEP_MM / 2],
    ['e-G1', 'g2', 'n2', STEP_MM],
    ['e-S2', 'n3', 'g3', STEP_MM],
    ['d3', 'g3', 'X', STEP_MM / 2],
    ['d4', 'X', 'g4', STEP_MM / 2],
    ['e-G2', 'g4', 'n4', STEP_MM],
  ],
  blocks: { S1: 'e-S1', S2: 'e-S2', D: 'd1', G1: 'e-G1', G2: 'e-G2' },
};

/**
 * The picture of the source: each of two has two ways of three steps to its goal, and all of them pass the same vertex D at the second.
 * The turnouts lie in short blocks of their own before the alternatives, and behind them in D.
 */
const twoWays: SmallTrack = {
  nodes: [
    ...plainNodes('n1', 'n2', 'n3', 'n4', 'ga', 'gb', 'gc', 'gd', 'g1', 'g2'),
    ...plainNodes('ga1', 'ga2', 'gd1', 'gd2', 'gb1', 'gb2', 'ge1', 'ge2'),
    turnout('TA', 'ta', 'ta1', 'ta2'),
    turnout('JA', 'd1', 'ja1', 'ja2'),
    turnout('TB', 'tb', 'tb1', 'tb2'),
    turnout('JB', 'd3', 'jb1', 'jb2'),
    {
      id: 'X',
      kind: 'crossing',
      ways: [
        ['d1', 'd2'],
        ['d3', 'd4'],
      ],
      insulated: false,
    },
  ] as SmallTrack['nodes'],
  edges: [
    ['e-S1', 'n1', 'ga', STEP_MM],
    ['ta', 'ga', 'TA', 1],
    ['ta1', 'TA', 'ga1', 1],
    ['ta2', 'TA', 'ga2', 1],
    ['e-A1', 'ga1', 'gd1', STEP_MM],
    ['e-A2', 'ga2', 'gd2', STEP_MM],
    ['ja1', 'gd1', 'JA', 1],
    ['ja2', 'gd2', 'JA', 1],
    ['d1', 'JA', 'X', STEP_MM / 2],
    ['d2', 'X', 'g1', STEP_MM / 2],
    ['e-G1', 'g1', 'n2', STEP_MM],
    ['e-S2', 'n3', 'gb', STEP_MM],
    ['tb', 'gb', 'TB', 1],
    ['tb1', 'TB', 'gb1', 1],
    ['tb2', 'TB', 'gb2', 1],
    ['e-B1', 'gb1', 'ge1', STEP_MM],
    ['e-B2', 'gb2', 'ge2', STEP_MM],
    ['jb1', 'ge1', 'JB', 1],
    ['jb2', 'ge2', 'JB', 1],
    ['d3', 'JB', 'X', STEP_MM / 2],
    ['d4', 'X', 'g2', STEP_MM / 2],
    ['e-G2', 'g2', 'n4', STEP_MM],
  ],
  blocks: {
    S1: 'e-S1',
    W1: 'ta',
    A1: 'e-A1',
    A2: 'e-A2',
    S2: 'e-S2',
    W2: 'tb',
    B1: 'e-B1',
    B2: 'e-B2',
    D: 'd1',
    G1: 'e-G1',
    G2: 'e-G2',
  },
};

it('W6: two trains, two ways each, that clash in one block: alone 3 + 3 steps, best 7, shown to be more than alone (Sharon et al., Conflict-based search, Artificial Intelligence 219, 2015)', () => {
  // Ten seconds a step, and a hundredth of one for each of the short pieces with the turnouts.
  const railroad = stepRailroad(twoWays, 2, SHORT_MM);
  const situation = situationOf(railroad, trainsAt({ at: 'e-S1:ga', to: 'G1' }, { at: 'e-S2:gb', to: 'G2' }));
  const answer = plan(railroad, situation, UNIT, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 400,
  });
  expect(planFaults(railroad, situation, answer, UNIT)).toEqual([]);
  expect(answer.lowerBound).toBeCloseTo(60, 0);
  expect(answer.total).toBeGreaterThanOrEqual(70);
  expect(answer.total).toBeLessThan(70.1);
});

describe('W7: safe intervals (Phillips and Likhachev, ICRA 2011): a block is taken from step 3 to step 6', () => {
  const railroad = stepRailroad(cross, 2, SHORT_MM);
  const departs = (notBefore: number): readonly number[] => {
    // The other train passes D from 30 s on: twice the length of D at half the speed, so until 60 s with nothing between.
    const json = trainsAt({ at: 'e-S1:g1', to: 'G1', notBefore }, { at: 'e-S2:g3', to: 'G2', notBefore: 30 });
    const slow: SituationJson = {
      ...json,
      trains: json.trains.map((train, index) => (index === 1 ? { ...train, mph: 10 } : train)),
    };
    const task = planTask(railroad, situationOf(railroad, slow), UNIT);
    if (task === null) throw new Error('expected a task');
    const timer = timetabler(task);
    const inserted = insertTrains(task, timer, [], [], [1, 0], {
      ...drawWishes(drawsFrom(1), 0),
      mindTheRest: false,
    });
    if (!inserted.ok) throw new Error('expected a way');
    const times = timer(inserted.order)?.departs ?? [];
    return inserted.order.flatMap((run, place) => (run.mover === 0 ? [times[place] ?? Number.NaN] : []));
  };
  it('started at step 0 the train is through before it', () => {
    const [into = 1, out = 0] = departs(0);
    expect(into).toBe(0);
    expect(out).toBeCloseTo(10, 6);
  });
  it('started at step 2 it waits, and goes in when the block is free again', () => {
    const [into = 0, out = 0] = departs(20.5);
    expect(into).toBeCloseTo(60, 0);
    expect(out - into).toBeCloseTo(10, 6);
  });
});
