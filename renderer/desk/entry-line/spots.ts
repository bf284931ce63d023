/** Where a train or a cut may stand in a block: an edge and the end of it that it faces, in words. */
import type { BlockId, NodeId, TrainId } from '../../../shared-model/ids.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { isStop, onward, type Spot, turned } from '../../../shared-model/railroad/travel.ts';
import { beyond, stopsIn } from '../../../shared-model/railroad/where-words.ts';
import { authorityOf } from '../../../shared-model/session/facts/authorities.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import type { Thing } from './things.ts';

const key = ({ edge, toward }: Spot): string => `${edge} ${toward}`;

/**
 * Every spot that a train can come to from where it stands, ahead or backing, on some blocks alone: it keeps its facing. On a railroad
 * that turns trains round, that may be both facings of an edge.
 */
function inItsFacing(railroad: Railroad, from: Spot, on: (block: BlockId) => boolean): ReadonlySet<string> {
  const seen = new Set([key(from)]);
  const open: Spot[] = [from];
  for (let spot = open.pop(); spot !== undefined; spot = open.pop()) {
    const ahead = onward(railroad, spot);
    const back = onward(railroad, turned(railroad, spot)).map((way) => turned(railroad, way));
    for (const { edge, toward } of [...ahead, ...back]) {
      const block = railroad.blockOfEdge.get(edge);
      if (block === undefined || !on(block) || seen.has(key({ edge, toward }))) continue;
      seen.add(key({ edge, toward }));
      open.push({ edge, toward });
    }
  }
  return seen;
}

/** What was said of a facing: the block beyond, or the very node. */
function faces(railroad: Railroad, spot: Spot, facing: Thing): boolean {
  return facing.kind === 'block'
    ? beyond(railroad, spot).some((block) => block === facing.id)
    : spot.toward === (facing.id as NodeId);
}

export interface SpotWish {
  /** Where: a block, a place (its tracks), or an edge. */
  readonly where: Thing;
  /** The train that stands there, where its present facing counts. */
  readonly train: TrainId | null;
  readonly facing: Thing | null;
}

function spotsOfThing(railroad: Railroad, where: Thing): readonly Spot[] {
  if (where.kind === 'block') return stopsIn(railroad, where.id as BlockId);
  if (where.kind === 'place')
    return (railroad.document.places.find(({ id }) => id === where.id)?.at ?? []).flatMap((spot) => [
      spot,
      turned(railroad, spot),
    ]);
  return [...railroad.edges.values()]
    .filter(({ id }) => id === where.id)
    .flatMap(({ id, between }) => between.map((toward) => ({ edge: id, toward })));
}

/**
 * The spots that are meant, most of the time one: with a facing said, those that face so; else the end of the block on the train's
 * authority; else those that keep the train's facing, as it comes there straight from where it is, or by any way.
 */
export function meantSpots(
  { railroad, state }: { readonly railroad: Railroad; readonly state: SessionState },
  { where, train, facing }: SpotWish,
): readonly Spot[] {
  const every = spotsOfThing(railroad, where);
  // Of an edge and one of its ends, nothing is left to guess: a train may stand short of a turnout.
  if (where.kind === 'edge' && facing?.kind === 'node')
    return every.filter(({ toward }) => toward === facing.id);
  const all = every.filter(({ toward }) => isStop(railroad, toward));
  if (facing !== null) return all.filter((spot) => faces(railroad, spot, facing));
  if (train === null) return all;
  const held = authorityOf(state, train)?.authority;
  const end = held?.legs.findLast(({ block }) => block === where.id)?.spots.at(-1);
  if (end !== undefined) return [end];
  const { trail = [], blocks = [] } = state.trains[train] ?? {};
  const [head] = trail;
  if (head === undefined) return all;
  const near = new Set<string>([
    ...blocks,
    ...(held?.blocks ?? []),
    ...all.flatMap(({ edge }) => railroad.blockOfEdge.get(edge) ?? []),
  ]);
  const keeping = (on: (block: BlockId) => boolean): readonly Spot[] => {
    const kept = inItsFacing(railroad, head, on);
    return all.filter((spot) => kept.has(key(spot)));
  };
  return (
    [keeping((block) => near.has(block)), keeping(() => true), all].find((spots) => spots.length > 0) ?? []
  );
}
