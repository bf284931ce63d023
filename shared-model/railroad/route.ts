/** A route: which way a train goes, what it needs set, and over which blocks. */
import type { BlockId, EdgeId, NodeId } from '../ids.ts';
import type { TurnoutPosition } from './document.ts';
import type { Railroad } from './railroad.ts';
import { type Spot, settingFor } from './travel.ts';

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
    const through = railroad.nodes.get(before.toward);
    const position = through === undefined ? undefined : settingFor(through, before.edge, spot.edge);
    if (through === undefined || position === undefined)
      throw new Error(`no way from ${before.edge} to ${spot.edge}`);
    return { spot, through: through.id, turnout: position === null ? null : { id: through.id, position } };
  });
}

/** Adds a setting to a list that does not have it. */
function addTurnout(list: TurnoutSetting[], turnout: TurnoutSetting | null): void {
  if (turnout === null) return;
  if (!list.some((other) => other.id === turnout.id && other.position === turnout.position))
    list.push(turnout);
}

function blockAt(railroad: Railroad, spot: Spot): BlockId {
  const block = railroad.blockOfEdge.get(spot.edge);
  if (block === undefined) throw new Error(`edge ${spot.edge} is in no block`);
  return block;
}

/** A slip of an insulated crossing leads from one block into another; the crossing then counts with the block that is left, since no train can stop between them. */
function stretchesOf(railroad: Railroad, way: readonly Passage[]): readonly Stretch[] {
  const stretches: { block: BlockId; gap: NodeId | null; spots: Spot[]; turnouts: TurnoutSetting[] }[] = [];
  for (const { spot, through, turnout } of way) {
    const block = blockAt(railroad, spot);
    const last = stretches.at(-1);
    if (last !== undefined) addTurnout(last.turnouts, turnout);
    if (last?.block === block) last.spots.push(spot);
    else stretches.push({ block, gap: through, spots: [spot], turnouts: [] });
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
  const stretches = stretchesOf(railroad, way);
  const edges: EdgeId[] = [];
  const turnouts: TurnoutSetting[] = [];
  /** The settings of each turnout that are in the list. */
  const listed = new Map<NodeId, TurnoutPosition | 'both'>();
  let lengthMm = 0;
  for (const [index, { spot, through, turnout }] of way.entries()) {
    const known = turnout === null ? 'both' : listed.get(turnout.id);
    if (turnout !== null && known !== 'both' && known !== turnout.position) {
      turnouts.push(turnout);
      listed.set(turnout.id, known === undefined ? turnout.position : 'both');
    }
    if (index === 0 || through !== null) edges.push(spot.edge);
    if (through !== null) lengthMm += railroad.edges.get(spot.edge)?.length ?? 0;
  }
  return {
    spots,
    edges,
    blocks: stretches.map((stretch) => stretch.block),
    lengthMm,
    turnouts,
    reversals: spots.filter((spot, index) => spots[index + 1]?.edge === spot.edge),
    stretches,
  };
}
