/** The ways of one train side by side: how long, which throws, how many seconds, and what the rules say against each. */
import type { BlockId, EdgeId, TrainId } from '../../shared-model/ids.ts';
import type { Situation, SituationTrain } from '../../shared-model/planning/situation.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Route } from '../../shared-model/railroad/route.ts';
import { routesToBlock } from '../../shared-model/railroad/routes.ts';
import { type Evening, take } from '../../shared-model/session/evening.ts';
import type { InputOf } from '../../shared-model/session/input.ts';
import type { SessionState, Throw } from '../../shared-model/session/state.ts';
import { modelSpeed } from '../../shared-model/units.ts';

export interface WayWish {
  readonly train: TrainId;
  readonly to: BlockId;
  readonly via: readonly BlockId[];
  readonly avoid: readonly BlockId[];
}

export interface Way {
  readonly route: Route;
  /** Running time alone, without a stop. */
  readonly seconds: number;
  readonly throws: readonly Throw[];
  /** What the rules say against it now, in sentences; nothing when it is free. */
  readonly refusals: readonly string[];
  /** What they are about. */
  readonly against: readonly string[];
  /** As everything stands when it is granted; where it is refused, as it stands now. */
  readonly after: SessionState;
}

/** How many ways are looked for. */
const WAYS = 5;

/** The order that asks for just this way: each of its blocks as a waypoint. */
function orderFor(railroad: Railroad, train: SituationTrain, route: Route): InputOf<'request-move'> {
  const to = route.edges.at(-1) as EdgeId;
  const via = route.blocks.slice(1, -1);
  const room = (route.stretches.at(-1)?.spots ?? []).reduce(
    (sum, { edge }) => sum + (railroad.edges.get(edge)?.length ?? 0),
    0,
  );
  return {
    do: 'request-move',
    train: train.id,
    to,
    ...(via.length === 0 ? {} : { via: [...via] }),
    ...(train.lengthMm > room ? { overhang: true } : {}),
  };
}

/** @param evening the fork, as everything stands in the rehearsal */
export function waysOf(
  railroad: Railroad,
  situation: Situation,
  evening: Evening,
  wish: WayWish,
): readonly Way[] {
  const train = situation.trains.find(({ id }) => id === wish.train);
  const head = train?.trail[0];
  if (train === undefined || head === undefined) return [];
  const routes = routesToBlock(railroad, head, wish.to, {
    alternatives: WAYS,
    via: wish.via,
    avoid: new Set(wish.avoid),
    oneSetting: true,
  });
  return routes.map((route) => {
    const input = orderFor(railroad, train, route);
    const { event, evening: after } = take(evening, { at: evening.state.at, input });
    const reasons = event.outcome === 'refused' ? event.reasons : [];
    return {
      route,
      seconds: route.lengthMm / modelSpeed(train.mph, railroad.document.scaleRatio),
      throws: event.throws ?? [],
      refusals: reasons.map(({ says }) => says),
      against: reasons.flatMap(({ about }) => about),
      after: after.state,
    };
  });
}
