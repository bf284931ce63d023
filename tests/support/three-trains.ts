/** The problem of the Rehearsal: three trains, one siding, one yard, on the demo. */
import { drawsFrom } from '../../shared-model/chance.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { USUAL_OPTIONS } from '../../shared-model/planning/plan/options.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';

/** One goes round, one comes out of the quarry into the siding, one out of the yard onto the main. */
export const THREE_TRAINS = {
  trains: [
    { train: 't3', edge: 'e11', toward: 'g1', cab: '1', to: 'B8' },
    { train: 't12', edge: 'e32', toward: 'g12', cab: '2', to: 'B10' },
    { train: 't24', edge: 'e46', toward: 'g16', cab: '4', to: 'B3' },
  ],
};

export const SCREEN_OPTIONS = { ...USUAL_OPTIONS, talkSeconds: 6, startSeconds: 4 };

export const demo = indexRailroad(demoRailroad);

/** The three trains laid out. */
export function threeTrains() {
  const parsed = parseSituation(demo, THREE_TRAINS);
  if (!parsed.ok) throw new Error(parsed.malformed.says);
  return parsed.value;
}

/** A plan for them that was found with little effort; the same for the same seed. */
export function threeTrainsPlan(seed = 1) {
  return plan(demo, threeTrains(), SCREEN_OPTIONS, {
    draw: drawsFrom(seed),
    shouldStop: () => false,
    patience: 60,
  });
}
