/**
 * A second example of W8's kind: the critical path, a worked example turned into a railroad and carried out by the simulated crew: what is late on the critical path is
 * late at the end, what has slack is not.
 */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { carried, expectGood, rehearsed } from '../support/crew/rehearsed.ts';
import { plainNodes, type SmallTrack } from '../support/line-of-track.ts';
import { STEP_MM, trainsAt, withCrews } from '../support/step-track.ts';

/** Ten seconds stand for an hour of the example. */
const HOUR = 10;
/** Nothing to throw that takes time, no words, no margins. */
const BARE: PlanOptions = {
  throwSeconds: 0,
  marginSeconds: 0,
  throwsPerMinute: 60,
  talkSeconds: 0,
  startSeconds: 0,
};

const crossing = (id: string, ...ways: readonly [string, string][]) =>
  ({ id, kind: 'crossing', ways, insulated: false }) as unknown as SmallTrack['nodes'][number];
const half = (hours: number): number => (hours * STEP_MM) / 2;

/**
 * Hours: A 6, then B 2, D 3, E 4, G 1; after A also C 2 and F 2, and E needs D and F. One train runs A B D E G. The other runs C through
 * the block of A after it, then F through the block of E before it: the two lines cross in these two blocks.
 */
const track: SmallTrack = {
  nodes: [
    ...plainNodes('n1', 'n2', 'n3', 'n4', 'g1', 'g2', 'g3', 'g4', 'g5', 'g6', 'g7', 'g8'),
    crossing('X', ['a1', 'a2'], ['c1', 'c2']),
    crossing('Y', ['e1', 'e2'], ['f1', 'f2']),
  ],
  edges: [
    ['s1', 'n1', 'g1', STEP_MM],
    ['a1', 'g1', 'X', half(6)],
    ['a2', 'X', 'g2', half(6)],
    ['b', 'g2', 'g3', 2 * half(2)],
    ['d', 'g3', 'g4', 2 * half(3)],
    ['e1', 'g4', 'Y', half(4)],
    ['e2', 'Y', 'g5', half(4)],
    ['g', 'g5', 'n2', 2 * half(1)],
    ['s2', 'n3', 'g6', STEP_MM],
    ['c1', 'g6', 'X', half(2)],
    ['c2', 'X', 'g7', half(2)],
    ['f1', 'g7', 'Y', half(2)],
    ['f2', 'Y', 'g8', half(2)],
    ['z', 'g8', 'n4', STEP_MM],
  ],
  blocks: { S1: 's1', AC: 'a1', B: 'b', D: 'd', EF: 'e1', G: 'g', S2: 's2', Z: 'z' },
};

describe('seven activities, the longest path A B D E G of 16 hours, one hour of slack for C and F (worked example, studylib.net/doc/8378728)', () => {
  const railroad = indexRailroad(withCrews(track, 2, 1));
  // The second train's crew comes late enough that the best plan sends the first one first.
  const parsed = parseSituation(
    railroad,
    trainsAt({ at: 's1:g1', to: 'G' }, { at: 's2:g6', to: 'Z', notBefore: 5 * HOUR }),
  );
  if (!parsed.ok) throw new Error(parsed.malformed.says);
  const situation = parsed.value;
  const answer = plan(railroad, situation, BARE, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 200,
  });
  const the = rehearsed(railroad, situation, answer, undefined, BARE);
  /** Hours at which the last activity ends when a train's first start is so many hours late. */
  const ends = (train: string, hours: number): number => {
    let first = true;
    const done = carried(
      the,
      (id) => {
        const late = first && id === train ? hours * HOUR : 0;
        if (id === train) first = false;
        return late;
      },
      { aheadSeconds: 1000 },
    );
    expectGood(the, done, `${train}, ${hours}`);
    return Math.max(...done.moves.filter((move) => move.train === 't1').map(({ end }) => end)) / HOUR;
  };

  it('the plan takes 16 hours, and the checker finds nothing wrong with it', () => {
    expect(planFaults(railroad, situation, answer, BARE)).toEqual([]);
    expect(answer.moves.findLast(({ train }) => train === 't1')?.end).toBeCloseTo(16 * HOUR, 1);
    const f = the.kept.orders.map(({ order, after }) => [
      order.train,
      after.map(({ train, block }) => `${train} ${block}`),
    ]);
    expect(f).toContainEqual(['t2', ['t1 AC']]);
    expect(f).toContainEqual(['t1', ['t2 EF']]);
  });
  it.each([0, 0.5, 1])(
    'a train on the critical path that is %s hours late is as late at the end',
    (hours) => {
      expect(ends('t1', hours)).toBeCloseTo(16 + hours, 2);
    },
  );
  it.each([
    [0, 16],
    [0.9, 16],
    [2, 17],
    [3, 18],
  ])('C that is %s hours late, of which one is slack, ends it at %s', (late, end) => {
    expect(ends('t2', late)).toBeCloseTo(end, 2);
  });
});
