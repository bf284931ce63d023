/** The cases of the benches: railroads of stations and single track, in rings and from end to end, with trains in the stations and errands between them. */
import type { BlockId } from '../../shared-model/ids.ts';
import { afterOneRun, startStandings } from '../../shared-model/planning/checker/check-witness.ts';
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { type Chance, chanceOf } from '../support/chance.ts';
import { randomSituation } from '../support/random-situation.ts';
import { stationRailroad, stationTracks } from '../support/station-railroad.ts';

export interface StationCase {
  readonly seed: number;
  readonly document: RailroadDocument;
  readonly railroad: Railroad;
  readonly situation: Situation;
  readonly json: SituationJson;
  /** Whether some order of runs is known from how the case was made. */
  readonly isFeasible: boolean;
}

/** Runs of each train in a walk, for every block of the railroad. */
const RUNS_PER_BLOCK = 0.4;

/** Where every train's head is after a long walk by legal runs, one train at a time; the checker's reading, not the planner's. */
function walked(railroad: Railroad, situation: Situation, chance: Chance): readonly (BlockId | undefined)[] {
  const standings = new Map(startStandings(situation));
  let train = chance.pick(situation.trains);
  for (let left = railroad.blocks.size * RUNS_PER_BLOCK * situation.trains.length; left > 0; left -= 1) {
    const next = afterOneRun(railroad, situation, standings, train);
    // A train goes on for a while, so that the walk gets far.
    if (next.length > 0) standings.set(train.id, chance.pick(next));
    if (next.length === 0 || chance.inHundred(15)) train = chance.pick(situation.trains);
  }
  return situation.trains.map(({ id }) => {
    const head = standings.get(id)?.trail[0];
    return head === undefined ? undefined : railroad.blockOfEdge.get(head.edge);
  });
}

/**
 * So many cases of a size, every second one with errands drawn (some track leads there, and no two have the same), the others with the
 * ends of a walk, so that a way for all of them is known to be.
 */
export function stationCases(blocks: number, trains: number, count: number): readonly StationCase[] {
  const cases: StationCase[] = [];
  for (let seed = 1; cases.length < count && seed < count * 4; seed += 1) {
    const document = stationRailroad(seed, { blocks, trains, ring: seed % 4 < 2 });
    const railroad = indexRailroad(document);
    const made = randomSituation(railroad, chanceOf(seed), {
      trains,
      reachable: true,
      blocks: stationTracks(document),
    });
    if (made === null || made.situation.trains.length < Math.min(trains, 2)) continue;
    const one = { seed, document, railroad };
    if (seed % 2 === 1) cases.push({ ...one, situation: made.situation, json: made.json, isFeasible: false });
    else {
      const ends = walked(railroad, made.situation, chanceOf(seed));
      const json: SituationJson = {
        ...made.json,
        trains: made.json.trains.map((train, index) => {
          const to = ends[index];
          return to === undefined ? train : { ...train, to };
        }),
      };
      const parsed = parseSituation(railroad, json);
      if (parsed.ok) cases.push({ ...one, situation: parsed.value, json, isFeasible: true });
    }
  }
  return cases;
}
