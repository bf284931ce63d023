/** W9 of the worked examples: the blocking time of a block, from its six parts, and what share of an hour so many of them take. */
import { describe, expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import type { PlanMove, PlanThrow } from '../../shared-model/planning/plan-answer.ts';
import { occupancyShare } from '../../shared-model/planning/timing/occupancy.ts';
import { planTiming } from '../../shared-model/planning/timing.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { lineTrack, situationOf, trainsAt, withCrews } from '../support/step-track.ts';

// One millimetre stands for a metre: 30 mph on 1:447.04 is 30 mm/s. A is the approach of 1500 m, B the block of 1500 m with the overlap
// of 200 m behind it, the train is 400 m long.
const LENGTHS: Readonly<Record<string, number>> = { 'e-S': 1000, 'e-A': 1500, 'e-B': 1700, 'e-C': 2000 };
const small = withCrews(lineTrack(['S', 'A', 'B', 'C']), 1, 400);
const railroad = indexRailroad({
  ...small,
  scaleRatio: 447.04,
  edges: small.edges.map((edge) => ({ ...edge, length: LENGTHS[edge.id] ?? edge.length })),
});

describe('W9: blocking time (J. Pachl, Railway Operation and Control, ch. 3: the six parts; own numbers)', () => {
  it.each([
    [30, 50, 50, 20, 139],
    [20, 75, 75, 30, 199],
  ])(
    'at %i m/s: set 6 + watch 10 + approach %i + run %i + clear %i + release 3 = %i s',
    (speed, approach, run, clear, whole) => {
      const set = 6;
      const watch = 10;
      const release = 3;
      expect(set + watch + approach + run + clear + release).toBe(whole);
      const options: PlanOptions = {
        throwSeconds: set,
        marginSeconds: release,
        throwsPerMinute: 60,
        talkSeconds: 0,
        startSeconds: 0,
      };
      const [train] = trainsAt({ at: 'e-S:g1', to: 'C' }).trains;
      const situation = situationOf(railroad, { trains: [{ ...train, mph: speed }] } as never);
      // The train runs through; what it needs in B is set so early that it has been seen when the approach begins.
      const start = 100;
      const turn = (block: string, at: number): PlanThrow => ({
        at,
        kind: 'selector',
        id: `K-${block}` as never,
        to: '1',
        waitsFor: [],
      });
      const throws = [turn('A', 0), turn('C', set), turn('B', start - watch - set)];
      const end = start + (1500 + 1700 + 2000) / speed;
      const move = {
        train: 't1',
        blocks: ['A', 'B', 'C'],
        edges: ['e-A', 'e-B', 'e-C'],
        start,
        end,
      } as unknown as PlanMove;
      const planned = { moves: [move], throws, total: end };
      expect(planFaults(railroad, situation, planned, options)).toEqual([]);
      const stay = planTiming(railroad, situation, planned, options).blocks.find(
        ({ block }) => block === 'B',
      );
      expect((stay?.till ?? 0) - (stay?.from ?? 0)).toBeCloseTo(whole, 6);
    },
  );

  it('of a train that starts at the signal at 30 m/s there is no approach: 6 + 10 + 50 + 20 + 3 = 89 s', () => {
    // Planned: setting is the 6 s of words, watching the 10 s of the start, the release is the margin.
    const options: PlanOptions = {
      throwSeconds: 3,
      marginSeconds: 3,
      throwsPerMinute: 60,
      talkSeconds: 6,
      startSeconds: 10,
    };
    const situation = situationOf(railroad, trainsAt({ at: 'e-A:g2', to: 'C' }));
    const answer = plan(railroad, situation, options, {
      draw: drawsFrom(1),
      shouldStop: () => false,
      patience: 20,
    });
    expect(planFaults(railroad, situation, answer, options)).toEqual([]);
    const stay = planTiming(railroad, situation, answer, options).blocks.find(({ block }) => block === 'B');
    expect((stay?.till ?? 0) - (stay?.from ?? 0)).toBeCloseTo(89, 3);
  });

  it.each([
    [10, 33.1],
    [20, 66.1],
    [24, 79.3],
  ])(
    '%i paths of 119 s in an hour, pressed together, take %f % of it (method of UIC Code 406)',
    (paths, share) => {
      const apart = 3600 / paths;
      const taken = Array.from({ length: paths }, (_, index) => ({
        from: index * apart,
        till: index * apart + 119,
      }));
      expect(occupancyShare(taken, 3600) * 100).toBeCloseTo(share, 1);
    },
  );
});
