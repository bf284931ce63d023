/** A route: which way a train goes, what it needs set, and over which blocks. */
import type { BlockId, EdgeId, NodeId } from '../ids.ts';
import type { TurnoutPosition } from './document.ts';
import type { Railroad } from './railroad.ts';
import { onward, type Spot } from './travel.ts';

/** A turnout (or a crossing with slips) and how it has to stand. */
export interface TurnoutSetting {
  readonly id: NodeId;
  readonly position: TurnoutPosition;
}

/** Consecutive edges of one block on a route. */
export interface Stretch {
  readonly block: BlockId;
  /** The gap (or insulated crossing) by which it is entered; null for the stretch on which the train stands. */
  readonly gap: NodeId | null;
  readonly spots: readonly Spot[];
  /** In the order of passing; each once, though it be passed twice in one setting. */
  readonly turnouts: readonly TurnoutSetting[];
}

export interface Route {
  /** Directed edges; the first is where the train stands. A reversal shows as the same edge again, facing the other way. */
  readonly spots: readonly Spot[];
  /** The edge the train stands on, then every edge entered. */
  readonly edges: readonly EdgeId[];
  /** The block of each stretch. */
  readonly blocks: readonly BlockId[];
  /** Millimetres of the edges entered; the one the train stands on is not. */
  readonly lengthMm: number;
  /** In route order, each setting of a turnout once; only a route not asked for as a move may need both settings of one. */
  readonly turnouts: readonly TurnoutSetting[];
  /** Where the train stops to change its facing: as it stands when it stops. */
  readonly reversals: readonly Spot[];
  /** The first is where the train stands. A gap with one block on both sides makes no new stretch. */
  readonly stretches: readonly Stretch[];
}

/** What happens between two spots of a route. */
interface Passage {
  readonly spot: Spot;
  /** The node passed; null where the train stands, and after a reversal. */
  readonly through: NodeId | null;
  readonly turnout: TurnoutSetting | null;
}

function passages(railroad: Railroad, spots: readonly Spot[]): readonly Passage[] {
  return spots.map((spot, index) => {
    const before = spots[index - 1];
    if (before === undefined || before.edge === spot.edge) return { spot, through: null, turnout: null };
    const next = onward(railroad, before).find((way) => way.edge === spot.edge && way.toward === spot.toward);
    if (next === undefined) throw new Error(`no way from ${before.edge} to ${spot.edge}`);
    const turnout = next.setting === undefined ? null : { id: next.through, position: next.setting };
    return { spot, through: next.through, turnout };
  });
}

function withTurnout(
  list: readonly TurnoutSetting[],
  turnout: TurnoutSetting | null,
): readonly TurnoutSetting[] {
  if (turnout === null) return list;
  const known = list.some((other) => other.id === turnout.id && other.position === turnout.position);
  return known ? list : [...list, turnout];
}

function blockAt(railroad: Railroad, spot: Spot): BlockId {
  const block = railroad.blockOfEdge.get(spot.edge);
  if (block === undefined) throw new Error(`edge ${spot.edge} is in no block`);
  return block;
}

/** A slip of an insulated crossing leads from one block into another; the crossing then counts with the block that is left, since no train can stop between them. */
function stretchesOf(railroad: Railroad, way: readonly Passage[]): readonly Stretch[] {
  const stretches: Stretch[] = [];
  for (const { spot, through, turnout } of way) {
    const block = blockAt(railroad, spot);
    const last = stretches.pop();
    if (last?.block === block)
      stretches.push({
        ...last,
        spots: [...last.spots, spot],
        turnouts: withTurnout(last.turnouts, turnout),
      });
    else {
      if (last !== undefined) stretches.push({ ...last, turnouts: withTurnout(last.turnouts, turnout) });
      stretches.push({ block, gap: through, spots: [spot], turnouts: [] });
    }
  }
  return stretches;
}

/**
 * Makes a route of the spots it goes over.
 *
 * @param spots at least one; each must follow from the one before by travel, or be the same edge the other way round
 * @throws when they do not follow from each other, or one is on dead track: that is a bug, not a user's mistake
 */
export function makeRoute(railroad: Railroad, spots: readonly Spot[]): Route {
  const way = passages(railroad, spots);
  const entered = way.flatMap(({ spot, through }) => (through === null ? [] : [spot.edge]));
  const stretches = stretchesOf(railroad, way);
  return {
    spots,
    edges: [...spots.slice(0, 1).map((spot) => spot.edge), ...entered],
    blocks: stretches.map((stretch) => stretch.block),
    lengthMm: entered.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0),
    turnouts: way.reduce<readonly TurnoutSetting[]>((list, { turnout }) => withTurnout(list, turnout), []),
    reversals: spots.filter((spot, index) => spots[index + 1]?.edge === spot.edge),
    stretches,
  };
}
