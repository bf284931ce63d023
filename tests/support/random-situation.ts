/** Random situations on a railroad: trains that fit, each in blocks of its own and on a cab of its own, some of them parked. */
import type { BlockId, ThrottleId } from '../../shared-model/ids.ts';
import { parseSituation, type Situation, type SituationJson } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { routesToBlock } from '../../shared-model/railroad/routes.ts';
import { isThrown } from '../../shared-model/railroad/travel.ts';
import type { Chance } from './chance.ts';
import { stoppingSpots } from './random-railroad.ts';

export interface RandomSituation {
  readonly json: SituationJson;
  readonly situation: Situation;
}

export interface SituationWishes {
  /** Most trains; fewer where they do not fit. */
  readonly trains: number;
  readonly parkedInHundred?: number;
  readonly reversalsInHundred?: number;
  /** Only destinations to which some track leads, whatever the others do, and no two the same. */
  readonly reachable?: boolean;
  /** Where trains may stand at first and end up; any block where it is left out. */
  readonly blocks?: ReadonlySet<BlockId>;
  /** Whether knobs may stand at random. */
  readonly knobs?: boolean;
}

/** Puts trains down one by one, each where the situation stays legal; null where not even one fits. */
export function randomSituation(
  railroad: Railroad,
  chance: Chance,
  wishes: SituationWishes,
): RandomSituation | null {
  const { document } = railroad;
  const isWished = (block: BlockId | undefined): boolean =>
    block !== undefined && (wishes.blocks === undefined || wishes.blocks.has(block));
  const spots = stoppingSpots(railroad).filter(({ edge }) => isWished(railroad.blockOfEdge.get(edge)));
  const ends = document.blocks.filter(({ id }) => isWished(id));
  if (spots.length === 0 || ends.length === 0) return null;
  const knobs =
    wishes.knobs === true
      ? {
          turnouts: Object.fromEntries(
            document.nodes
              .filter(isThrown)
              .map(({ id }) => [id, chance.pick(['normal', 'reverse'] as const)]),
          ),
        }
      : {};
  const reversals = chance.inHundred(wishes.reversalsInHundred ?? 0) ? { reversals: true } : {};
  let json: SituationJson = { trains: [], ...knobs, ...reversals };
  const cabs: ThrottleId[] = document.throttles.map(({ id }) => id);
  for (const { id } of document.trains.slice(0, wishes.trains)) {
    const cab = cabs.shift();
    if (cab === undefined) break;
    for (let tries = 0; tries < 25; tries += 1) {
      const { edge, toward } = chance.pick(spots);
      const block = chance.pick(ends).id;
      if (wishes.reachable === true && json.trains.some((other) => other.to === block)) continue;
      if (wishes.reachable === true && routesToBlock(railroad, { edge, toward }, block).length === 0)
        continue;
      const to = chance.inHundred(wishes.parkedInHundred ?? 0) ? {} : { to: block };
      const train = { train: id, edge, toward, cab, ...to };
      const wider: SituationJson = { ...json, trains: [...json.trains, train] };
      if (!parseSituation(railroad, wider).ok) continue;
      json = wider;
      break;
    }
  }
  if (json.trains.length === 0) return null;
  const parsed = parseSituation(railroad, json);
  return parsed.ok ? { json, situation: parsed.value } : null;
}
