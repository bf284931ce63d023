/** A rehearsal as full as one gets: twenty-four trains on a large railroad, names as long as they come, and a plan for all of them. */
import type { KeptRehearsal } from '../../renderer/rehearsal/kept-rehearsal.ts';
import { drawsFrom } from '../../shared-model/chance.ts';
import { plan } from '../../shared-model/planning/plan.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from './chance.ts';
import { randomSituation } from './random-situation.ts';
import { stationRailroad, stationTracks } from './station-railroad.ts';
import { SCREEN_OPTIONS } from './three-trains.ts';

/** A situation for which a plan is found at once: four trains run, some through half of the railroad. */
const SEED = 43;
const TRAINS = 24;

/** @returns what is kept under a name by the host, as if somebody had planned it there */
export function crowdedRehearsal(): KeptRehearsal {
  const bare = stationRailroad(4, { blocks: 160, trains: TRAINS, ring: true });
  const document = railroadDocument.parse({
    ...bare,
    name: 'Fenwold and Upper Marsh Terminal Railway, Northern Division',
    trains: bare.trains.map((train, index) => ({
      ...train,
      name: index % 3 === 0 ? `Upper Marshfield perishables ${1200 + index}` : `Way freight ${index}`,
    })),
    blocks: bare.blocks.map((block, index) => ({
      ...block,
      name: index % 4 === 0 ? `Fenwold Junction westbound approach ${index}` : `Siding ${index}`,
    })),
  });
  const railroad = indexRailroad(document);
  const made = randomSituation(railroad, chanceOf(SEED), {
    trains: TRAINS,
    reachable: true,
    parkedInHundred: 80,
    blocks: stationTracks(document),
  });
  if (made === null) throw new Error('no train fits');
  const answer = plan(railroad, made.situation, SCREEN_OPTIONS, {
    draw: drawsFrom(1),
    shouldStop: () => false,
    patience: 1,
  });
  return {
    format: 'cabward-rehearsal/1',
    name: 'The night of the twenty-four trains, with all that can go wrong',
    from: 'the setting “Saturday evening, everybody at home”',
    document,
    situation: made.json as KeptRehearsal['situation'],
    underWay: [],
    plans: [{ name: 'Plan 1', options: SCREEN_OPTIONS, answer }],
    chosen: 0,
    madeReal: null,
  };
}
