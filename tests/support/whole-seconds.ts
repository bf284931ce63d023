/** Small railroads on which every time of a plan is a whole number of seconds, for searches that go on second by second. */
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import type { Situation, SituationJson } from '../../shared-model/planning/situation.ts';
import { parseSituation } from '../../shared-model/planning/situation.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { modelSpeed } from '../../shared-model/units.ts';
import { chanceOf } from './chance.ts';
import { randomSituation } from './random-situation.ts';
import { stationRailroad } from './station-railroad.ts';

/** Millimetres that every train goes in a second. */
export const SPEED = 1000;
export const SECOND_OPTIONS: PlanOptions = {
  throwSeconds: 1,
  marginSeconds: 1,
  throwsPerMinute: 60,
  talkSeconds: 0,
  startSeconds: 0,
};

const whole = (mm: number): number => Math.max(1, Math.round(mm / 1500)) * SPEED;

export interface WholeCase {
  readonly seed: number;
  readonly document: RailroadDocument;
  readonly railroad: Railroad;
  readonly json: SituationJson;
  readonly situation: Situation;
}

/** One station between two ends, or in a ring, with a few trains; null where they do not fit or a destination cannot be reached. */
export function wholeCase(seed: number, blocks: number, trains: number): WholeCase | null {
  const drawn = stationRailroad(seed, { blocks, trains, ring: seed % 2 === 0 });
  const document: RailroadDocument = {
    ...drawn,
    edges: drawn.edges.map((edge) => ({ ...edge, length: whole(edge.length) })),
    trains: drawn.trains.map((train) => ({ ...train, length: whole(train.length) })),
  };
  const railroad = indexRailroad(document);
  const made = randomSituation(railroad, chanceOf(seed), { trains, reachable: true });
  if (made === null || made.situation.trains.length < trains) return null;
  const mph = SPEED / modelSpeed(1, document.scaleRatio);
  const json = { ...made.json, trains: made.json.trains.map((train) => ({ ...train, mph })) };
  const parsed = parseSituation(railroad, json);
  return parsed.ok ? { seed, document, railroad, json, situation: parsed.value } : null;
}
