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

interface StretchMade extends Stretch {
  readonly spots: Spot[];
  readonly turnouts: TurnoutSetting[];
}

/** How the lever between two spots has to stand; null where nothing is thrown. */
function settingBetween(railroad: Railroad, before: Spot, spot: Spot): TurnoutPosition | null {
  const node = railroad.nodes.get(before.toward);
  const position = node === undefined ? undefined : settingFor(node, before.edge, spot.edge);
  if (position === undefined) throw new Error(`no way from ${before.edge} to ${spot.edge}`);
  return position;
}

/** Adds a setting to a list that does not have it. */
function addTurnout(list: TurnoutSetting[], turnout: TurnoutSetting): void {
  if (!list.some((other) => other.id === turnout.id && other.position === turnout.position))
    list.push(turnout);
}

function blockAt(railroad: Railroad, spot: Spot): BlockId {
  const block = railroad.blockOfEdge.get(spot.edge);
  if (block === undefined) throw new Error(`edge ${spot.edge} is in no block`);
  return block;
}

/**
 * Makes a route of the spots it goes over.
 *
 * A slip of an insulated crossing leads from one block into another; the crossing then counts with the block that is left, since no
 * train can stop between them.
 *
 * @param spots at least one; each must follow from the one before by travel, or be the same edge the other way round
 * @throws when they do not follow from each other, or one is on dead track: that is a bug, not a user's mistake
 */
export function makeRoute(railroad: Railroad, spots: readonly Spot[]): Route {
  const stretches: StretchMade[] = [];
  const edges: EdgeId[] = [];
  const turnouts: TurnoutSetting[] = [];
  const reversals: Spot[] = [];
  /** The settings of each turnout that are in the list. */
  const listed = new Map<NodeId, TurnoutPosition | 'both'>();
  let lengthMm = 0;
  let before: Spot | null = null;
  // One pass without things of its own for each spot: a long route takes more time here than to be found.
  for (const spot of spots) {
    let through: NodeId | null = null;
    const last = stretches.at(-1);
    if (before !== null && before.edge === spot.edge) reversals.push(before);
    else edges.push(spot.edge);
    if (before !== null && before.edge !== spot.edge) {
      through = before.toward;
      lengthMm += railroad.edges.get(spot.edge)?.length ?? 0;
      const position = settingBetween(railroad, before, spot);
      if (position !== null) {
        const turnout = { id: through, position };
        const known = listed.get(through);
        if (known !== 'both' && known !== position) {
          turnouts.push(turnout);
          listed.set(through, known === undefined ? position : 'both');
        }
        if (last !== undefined) addTurnout(last.turnouts, turnout);
      }
    }
    const block = blockAt(railroad, spot);
    if (last?.block === block) last.spots.push(spot);
    else stretches.push({ block, gap: through, spots: [spot], turnouts: [] });
    before = spot;
  }
  return {
    spots,
    edges,
    blocks: stretches.map(({ block }) => block),
    lengthMm,
    turnouts,
    reversals,
    stretches,
  };
}
