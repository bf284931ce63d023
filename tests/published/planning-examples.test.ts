/**
 * Worked examples with known answers, turned into railroads: `shared/reference/published-values.md`, W3 to W7 and W9; the source of each
 * beside it. Every witness and every plan goes through the independent checker.
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
import { planTiming } from '../../shared-model/planning/timing.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { plainNodes, type SmallTrack, turnout } from '../support/line-of-track.ts';
import {
  lineTrack,
  ringTrack,
  STEP_MM,
  stationsTrack,
  stepRailroad,
  trainsAt,
  withCrews,
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

it('W6: two trains that clash in one block: alone 4 steps, best 5, shown to be more than alone (after Sharon et al., Artificial Intelligence 219, 2015)', () => {
  // The picture has one more vertex before the shared one, which both pass alike: 3 + 3 alone and 7 at best become 2 + 2 and 5.
  const railroad = stepRailroad(cross, 2, SHORT_MM);
  const json = trainsAt({ at: 'e-S1:g1', to: 'G1' }, { at: 'e-S2:g3', to: 'G2' });
  const situation = situationOf(railroad, json);
  const answer = plan(railroad, situation, UNIT, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 200,
  });
  expect(planFaults(railroad, situation, answer, UNIT)).toEqual([]);
  expect(answer.lowerBound).toBeCloseTo(40, 2);
  expect(answer.total).toBeGreaterThanOrEqual(50);
  expect(answer.total).toBeLessThan(50.1);
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

it('W9: blocking time of a train that starts at the signal: 6 + 10 + 50 + 20 + 3 = 89 s (J. Pachl, Railway Operation and Control, ch. 3: the six parts)', () => {
  // One millimetre stands for a metre: 30 mph on 1:447.04 is 30 mm/s. Setting is the 6 s of words, watching the 10 s of the start, the
  // overlap of 200 m belongs to the block, the release is the margin.
  const small = withCrews(lineTrack(['A', 'B', 'C']), 1, 400);
  const railroad = indexRailroad({
    ...small,
    scaleRatio: 447.04,
    edges: small.edges.map((edge) => ({ ...edge, length: edge.id === 'e-B' ? 1700 : 1000 })),
  });
  const options: PlanOptions = {
    throwSeconds: 3,
    marginSeconds: 3,
    throwsPerMinute: 60,
    talkSeconds: 6,
    startSeconds: 10,
  };
  const situation = situationOf(railroad, trainsAt({ at: 'e-A:g1', to: 'C' }));
  const answer = plan(railroad, situation, options, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 20,
  });
  expect(planFaults(railroad, situation, answer, options)).toEqual([]);
  const stay = planTiming(railroad, situation, answer, options).blocks.find(({ block }) => block === 'B');
  expect((stay?.till ?? 0) - (stay?.from ?? 0)).toBeCloseTo(89, 3);
});
