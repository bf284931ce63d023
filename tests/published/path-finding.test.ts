/** W6 and W7 of the worked examples: conflict-based search and safe intervals, as given and turned into railroads; every plan goes through the independent checker. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import { drawWishes, insertTrains } from '../../shared-model/planning/plan/insert-trains.ts';
import { type PlanOptions, USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { planTask } from '../../shared-model/planning/plan/plan-task.ts';
import { timetabler } from '../../shared-model/planning/plan/timetable.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { freeFrom, nextBusy } from '../../shared-model/planning/safe-state/busy-times.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import { plainNodes, type SmallTrack, turnout } from '../support/line-of-track.ts';
import { fewestSteps, leastSumOfCosts, type StepProblem } from '../support/step-search.ts';
import { STEP_MM, situationOf, stepRailroad, trainsAt } from '../support/step-track.ts';

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

it('W6: the picture of conflict-based search as a graph: alone 3 + 3, together 7, the last one there after 4 (after Sharon et al., Artificial Intelligence 219, 2015; figure from memory, answer computed)', () => {
  const joins: StepProblem['joins'] = ['1', '2'].flatMap((train) =>
    (train === '1' ? ['A1', 'A2'] : ['B1', 'B2']).flatMap((way): [string, string][] => [
      [`S${train}`, way],
      [way, 'D'],
    ]),
  );
  const whole: StepProblem = {
    joins: [...joins, ['D', 'G1'], ['D', 'G2']],
    trips: [
      ['S1', 'G1'],
      ['S2', 'G2'],
    ],
  };
  const [first, second] = whole.trips;
  expect(leastSumOfCosts({ ...whole, trips: [first as [string, string]] }, 'loose')).toBe(3);
  expect(leastSumOfCosts({ ...whole, trips: [second as [string, string]] }, 'loose')).toBe(3);
  expect(leastSumOfCosts(whole, 'loose')).toBe(7);
  expect(fewestSteps(whole, 'loose').steps).toBe(4);
});

it('W6 as a railroad: two trains, two ways each, that clash in one block: alone 3 + 3 steps, best 7, the last one there after 4', () => {
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
  expect(Math.max(...answer.moves.map(({ end }) => end))).toBeCloseTo(40, 0);
});

describe('W7: safe intervals: a block that is taken at steps 3, 4 and 5 (constructed; after Phillips and Likhachev, ICRA 2011)', () => {
  // A train is in the block that it comes to from the moment it sets out: steps 3 to 5 are from 20 to 50 s, at ten seconds a step.
  const railroad = stepRailroad(cross, 2, SHORT_MM);
  /** When the train leaves A and B, and when it is in C, in steps. */
  const goes = (notBefore: number): readonly number[] => {
    // The other train is in D from 20 s on, with nothing between and a third of the speed: until 50 s.
    const json = trainsAt({ at: 'e-S1:g1', to: 'G1', notBefore }, { at: 'e-S2:g3', to: 'G2', notBefore: 20 });
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
    const timetable = timer(inserted.order);
    const departs = inserted.order.flatMap((run, place) =>
      run.mover === 0 ? [timetable?.departs[place] ?? Number.NaN] : [],
    );
    return [...departs, timetable?.arrives[0] ?? Number.NaN].map((seconds) => seconds / 10);
  };
  it('started at step 0 it is in B at 1 and in C at 2', () => {
    const [leavesA = -1, inB = -1, inC = -1] = goes(0);
    expect(leavesA).toBe(0);
    expect(inB).toBeCloseTo(1, 2);
    expect(inC).toBeCloseTo(2, 2);
  });
  it('started at step 2 it waits in A until 5, and is in B at 6 and in C at 7', () => {
    const [leavesA = -1, inB = -1, inC = -1] = goes(20);
    expect(leavesA).toBeCloseTo(5, 1);
    expect(inB).toBeCloseTo(6, 1);
    expect(inC).toBeCloseTo(7, 1);
  });
  it('the safe intervals of B are up to 2 and from 6 on', () => {
    // In steps at which a train may stand there, as the source counts: taken is half open.
    const taken = [3, 6];
    for (const step of [0, 1, 2, 6, 7, 100]) expect(freeFrom(taken, step), `${step}`).toBe(step);
    for (const step of [3, 4, 5]) expect(freeFrom(taken, step), `${step}`).toBe(6);
    expect(nextBusy(taken, 0)).toBe(3);
    expect(nextBusy(taken, 6)).toBe(Number.POSITIVE_INFINITY);
  });
});
