/** W9 of the worked examples: the blocking time of a block, from its six parts. */
import { expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { planFaults } from '../../shared-model/planning/checker/check-plan.ts';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { planTiming } from '../../shared-model/planning/timing.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { lineTrack, trainsAt, withCrews } from '../support/step-track.ts';

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
  const parsed = parseSituation(railroad, trainsAt({ at: 'e-A:g1', to: 'C' }));
  if (!parsed.ok) throw new Error(parsed.malformed.says);
  const situation = parsed.value;
  const answer = plan(railroad, situation, options, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 20,
  });
  expect(planFaults(railroad, situation, answer, options)).toEqual([]);
  const stay = planTiming(railroad, situation, answer, options).blocks.find(({ block }) => block === 'B');
  expect((stay?.till ?? 0) - (stay?.from ?? 0)).toBeCloseTo(89, 3);
});
