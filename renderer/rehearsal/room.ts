/** Where a train of a rehearsal lies, what room there is behind its head, and a spot where one more can be put. */
import type { BlockId, EdgeId, NodeId, ThrottleId, TrainId } from '../../shared-model/ids.ts';
import type { SituationJson } from '../../shared-model/planning/situation.ts';
import type { TurnoutPosition } from '../../shared-model/railroad/document.ts';
import { feedOf } from '../../shared-model/railroad/feed.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { Spot } from '../../shared-model/railroad/travel.ts';
import { layBack } from '../../shared-model/railroad/under-train.ts';
import { beyond, stopsIn } from '../../shared-model/railroad/where-words.ts';
import type { Millimetres } from '../../shared-model/units.ts';

type Turnouts = Pick<SituationJson, 'turnouts'>;

const positionIn =
  ({ turnouts }: Turnouts) =>
  (node: NodeId): TurnoutPosition =>
    (turnouts as Readonly<Record<string, TurnoutPosition>> | undefined)?.[node] ?? 'normal';

const headOf = ({ edge, toward }: { readonly edge: string; readonly toward: string }): Spot => ({
  edge: edge as EdgeId,
  toward: toward as NodeId,
});

function blocksBehind(
  railroad: Railroad,
  json: Turnouts,
  head: Spot,
  lengthMm: Millimetres,
): readonly BlockId[] | null {
  const trail = layBack(railroad, head, lengthMm, positionIn(json));
  if (trail === undefined) return null;
  return [...new Set(trail.flatMap(({ edge }) => railroad.blockOfEdge.get(edge) ?? []))];
}

/** The blocks under a train, head first; null where it does not fit behind its head. */
export const blocksUnder = (
  railroad: Railroad,
  json: Turnouts,
  train: SituationJson['trains'][number],
): readonly BlockId[] | null =>
  blocksBehind(railroad, json, headOf(train), railroad.trains.get(train.train as TrainId)?.length ?? 0);

/** The length of track behind a head, as far as the turnouts lead. */
export function roomBehind(
  railroad: Railroad,
  json: Turnouts,
  train: SituationJson['trains'][number],
): Millimetres {
  const head = headOf(train);
  let room = 0;
  for (;;) {
    const trail = layBack(railroad, head, room + 1, positionIn(json));
    if (trail === undefined) return room;
    room = trail.reduce((sum, { edge }) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);
  }
}

/**
 * A spot for one more train: where it fits, every block under it can be its cab's, and no other train is. Tracks of places come first,
 * since that is where trains stand; best is one block under it alone, and track ahead of it, so that it can be sent somewhere.
 *
 * @returns null where there is none
 */
export function freeSpot(railroad: Railroad, json: SituationJson, id: TrainId, cab: ThrottleId): Spot | null {
  const taken = new Set(json.trains.flatMap((train) => blocksUnder(railroad, json, train) ?? []));
  const lengthMm = railroad.trains.get(id)?.length ?? 0;
  const ofPlaces = railroad.document.places.flatMap(({ at }) =>
    at.flatMap(({ edge }) => railroad.blockOfEdge.get(edge) ?? []),
  );
  const blocks = new Set([...ofPlaces, ...railroad.document.blocks.map((block) => block.id)]);
  const spots = [...blocks].flatMap((block) => stopsIn(railroad, block));
  let next: Spot | null = null;
  for (const spot of spots) {
    const under = blocksBehind(railroad, json, spot, lengthMm);
    if (under === null || under.some((block) => taken.has(block))) continue;
    if (!under.every((block) => feedOf(railroad, block)?.throttles.includes(cab))) continue;
    if (under.length === 1 && beyond(railroad, spot).length > 0) return spot;
    next ??= spot;
  }
  return next;
}
