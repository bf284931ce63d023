/** What a throw of a plan waits for: a person goes by it and not by the clock, so that it has to name whoever leaves last. */
import { expect, it } from 'vitest';
import { drawsFrom } from '../../shared-model/chance.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { holdDocument, plainNodes, type SmallTrack } from '../support/line-of-track.ts';

/** West, middle, a holding section that is fed from the middle, east. */
const LINE: SmallTrack = {
  nodes: plainNodes('n1', 'g1', 'g2', 'g3', 'n2'),
  edges: [
    ['e1', 'n1', 'g1', 2000],
    ['e2', 'g1', 'g2', 2000],
    ['e3', 'g2', 'g3', 2000],
    ['e4', 'g3', 'n2', 2000],
  ],
  blocks: { West: 'e1', Middle: 'e2', Hold: 'e3', East: 'e4' },
};

it('names the train that has to leave a section which the knob feeds through a toggle that is on', () => {
  const railroad = indexRailroad(holdDocument(LINE));
  const situation = parseSituation(railroad, {
    trains: [
      { train: 't1', edge: 'e1', toward: 'g1', cab: '1', to: 'Middle' },
      { train: 't2', edge: 'e2', toward: 'g2', cab: '2', to: 'East' },
    ],
  });
  if (!situation.ok) throw new Error(situation.malformed.says);
  const { throws } = plan(railroad, situation.value, USUAL_OPTIONS, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 200,
  });
  const turned = throws.find(({ id, to }) => id === 'K-Middle' && to === '1');
  expect(turned?.waitsFor).toContainEqual({ train: 't2', block: 'Hold' });
});
