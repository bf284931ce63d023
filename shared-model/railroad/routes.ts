/**
 * Routes over (edge, facing) states: a turnout is not a junction of roads. To a block, or to one edge; shortest first, with
 * avoidances, by way of named blocks, and with reversals where asked.
 */
import type { BlockId, EdgeId, NodeId } from '../ids.ts';
import { bestPaths } from './best-paths.ts';
import type { TurnoutPosition } from './document.ts';
import type { Railroad } from './railroad.ts';
import { makeRoute, type Route, type TurnoutSetting } from './route.ts';
import { layerWays } from './route-layers.ts';
import { isStop, type Spot } from './travel.ts';
import { trackGraph } from './way-graph.ts';

export interface RouteOptions {
  /** Blocks that must not be entered. */
  readonly avoid?: ReadonlySet<BlockId> | undefined;
  /** Blocks of which an edge has to be entered, in this order; where the train stands does not count. */
  readonly via?: readonly BlockId[] | undefined;
  /** How often the train may stop at a gap or an end and change its facing; default 0. */
  readonly reversals?: number | undefined;
  /** Millimetres; a reversal needs the train clear of the turnout behind it by so much. Default 0. */
  readonly trainLengthMm?: number | undefined;
  /** How many routes to give, best first, none of them with a loop in it; default 1. */
  readonly alternatives?: number | undefined;
  /** Only routes that need no turnout in both settings, as a move wants; default false. */
  readonly oneSetting?: boolean | undefined;
  /** Turnouts that are already needed in one setting: by what an authority still has ahead. */
  readonly settled?: readonly TurnoutSetting[] | undefined;
}

function search(
  railroad: Railroad,
  from: Spot,
  farEnds: readonly Spot[],
  options: RouteOptions,
): readonly Route[] {
  const track = trackGraph(railroad);
  const origin = track.stateOf(from);
  if (origin === undefined) throw new Error(`no edge ${from.edge} toward ${from.toward}`);
  if (track.blocks[origin] === undefined) return [];
  const layers = layerWays(railroad, track, {
    via: options.via ?? [],
    reversals: options.reversals ?? 0,
    trainLengthMm: options.trainLengthMm ?? 0,
  });
  const goals = farEnds.flatMap((spot) => {
    const state = track.stateOf(spot);
    return state === undefined ? [] : layers.endsAt(state);
  });
  const { avoid } = options;
  const isOpen = (state: number): boolean => {
    const block = track.blocks[layers.spotOf(state)];
    return block !== undefined && (avoid === undefined || !avoid.has(block));
  };
  const settled = new Map(
    (options.settled ?? []).flatMap(({ id, position }): [number, TurnoutPosition][] => {
      const number = track.leverNumber.get(id);
      return number === undefined ? [] : [[number, position]];
    }),
  );
  const paths = bestPaths(
    { graph: layers.graph, origin, goals: new Set(goals), isOpen },
    { count: options.alternatives ?? 1, oneSetting: options.oneSetting ?? false, settled },
  );
  const spotAt = (state: number): Spot => track.spots[layers.spotOf(state)] ?? from;
  return paths.map((path) => makeRoute(railroad, [spotAt(origin), ...path.map((step) => spotAt(step.to))]));
}

/** Both facings of an edge, those in which it leads to a gap or an end of track. */
function stopsOn(railroad: Railroad, edge: EdgeId): readonly Spot[] {
  const ends = railroad.edges.get(edge)?.between ?? [];
  return ends.filter((node) => isStop(railroad, node)).map((toward) => ({ edge, toward }));
}

/**
 * Routes to a far end of a block: each ends with the first edge entered that is in the block and leads to a gap or an end of track
 * (and comes after all of `via`). At least one edge is entered, so that a train that stands at a far end of the block already needs a
 * way round. Dead track is never entered.
 *
 * @param from where the train's head is, at the `toward` end of its edge
 * @returns the best routes in order: shorter, then fewer passages of turnouts in reverse, then the lists of edge ids compared as
 *   strings, element by element; none when no track leads there, or the train stands on dead track
 * @throws when `from` is not an edge with one of its ends
 */
export function routesToBlock(
  railroad: Railroad,
  from: Spot,
  to: BlockId,
  options: RouteOptions = {},
): readonly Route[] {
  const edges = railroad.edgesOfBlock.get(to) ?? [];
  return search(
    railroad,
    from,
    edges.flatMap((edge) => stopsOn(railroad, edge)),
    options,
  );
}

/**
 * Routes that end with one edge and leave it at a gap or an end of track: at `toward`, where that is given (the track of a place).
 * Otherwise as `routesToBlock`.
 */
export function routesToEdge(
  railroad: Railroad,
  from: Spot,
  to: EdgeId,
  options: RouteOptions = {},
  toward?: NodeId,
): readonly Route[] {
  const farEnds = stopsOn(railroad, to).filter((spot) => toward === undefined || spot.toward === toward);
  return search(railroad, from, farEnds, options);
}
