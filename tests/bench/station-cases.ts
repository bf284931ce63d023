/** The cases of the benches: railroads of stations and single track, in rings and from end to end, with trains in the stations and errands between them. */
import type { Situation, SituationJson } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { chanceOf } from '../support/chance.ts';
import { randomSituation } from '../support/random-situation.ts';
import { stationRailroad, stationTracks } from '../support/station-railroad.ts';

export interface StationCase {
  readonly seed: number;
  readonly document: RailroadDocument;
  readonly railroad: Railroad;
  readonly situation: Situation;
  readonly json: SituationJson;
}

/** So many cases of a size; every train has a destination to which some track leads, no two the same. */
export function stationCases(blocks: number, trains: number, count: number): readonly StationCase[] {
  const cases: StationCase[] = [];
  for (let seed = 1; cases.length < count && seed < count * 4; seed += 1) {
    const document = stationRailroad(seed, { blocks, trains, ring: seed % 2 === 0 });
    const railroad = indexRailroad(document);
    const made = randomSituation(railroad, chanceOf(seed), {
      trains,
      reachable: true,
      blocks: stationTracks(document),
    });
    if (made === null || made.situation.trains.length < Math.min(trains, 2)) continue;
    cases.push({ seed, document, railroad, situation: made.situation, json: made.json });
  }
  return cases;
}
