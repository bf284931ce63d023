/** Travel: how a train goes on from an edge, given the node it faces. It never turns round on the spot. */
import type { EdgeId, NodeId } from '../ids.ts';
import type { TrackNode, TurnoutPosition } from './document.ts';
import type { Railroad } from './railroad.ts';

/** Where a train (or its head) is: on an edge, at the end of it that it faces. */
export interface Spot {
  readonly edge: EdgeId;
  readonly toward: NodeId;
}

/** One way on from a spot; `setting` where a turnout (or a crossing with slips) has to stand a certain way for it. */
export interface Onward extends Spot {
  readonly through: NodeId;
  readonly setting?: TurnoutPosition;
  /** A self-lining turnout run through from a leg: the train moves it, so it may stand either way before. */
  readonly selfLined?: true;
}

/** A node that has a lever: a turnout, or a crossing with slips. */
export function isThrown(node: TrackNode): boolean {
  return node.kind === 'turnout' || (node.kind === 'crossing' && node.slips !== undefined);
}

/** The other end of an edge. Throws when the edge does not touch the node: that is a bug, not a user's mistake. */
export function otherEnd(railroad: Railroad, edge: EdgeId, node: NodeId): NodeId {
  const ends = railroad.edges.get(edge)?.between;
  if (ends === undefined || !ends.includes(node)) throw new Error(`edge ${edge} does not touch node ${node}`);
  return ends[0] === node ? ends[1] : ends[0];
}

/** Turned to face the other way, on the same edge. */
export function turned(railroad: Railroad, spot: Spot): Spot {
  return { edge: spot.edge, toward: otherEnd(railroad, spot.edge, spot.toward) };
}

const partner = (pair: readonly [EdgeId, EdgeId], edge: EdgeId): EdgeId | undefined =>
  pair[0] === edge ? pair[1] : pair[1] === edge ? pair[0] : undefined;

function onwardEdges(
  railroad: Railroad,
  node: TrackNode,
  edge: EdgeId,
): readonly { edge: EdgeId; setting?: TurnoutPosition; selfLined?: true }[] {
  switch (node.kind) {
    case 'end':
      return [];
    case 'joint':
    case 'gap':
      return (railroad.edgesAt.get(node.id) ?? [])
        .filter((other) => other !== edge)
        .map((other) => ({ edge: other }));
    case 'turnout':
      if (edge === node.trunk)
        return [
          { edge: node.normal, setting: 'normal' },
          { edge: node.reverse, setting: 'reverse' },
        ];
      return [
        {
          edge: node.trunk,
          setting: edge === node.normal ? 'normal' : 'reverse',
          ...(node.selfLining === true ? { selfLined: true } : {}),
        },
      ];
    case 'crossing': {
      const thrown = isThrown(node);
      const straight = node.ways
        .map((way) => partner(way, edge))
        .filter((other) => other !== undefined)
        .map((other) => (thrown ? { edge: other, setting: 'normal' as const } : { edge: other }));
      const slipped = (node.slips ?? [])
        .map((slip) => partner(slip, edge))
        .filter((other) => other !== undefined)
        .map((other) => ({ edge: other, setting: 'reverse' as const }));
      return [...straight, ...slipped];
    }
  }
}

/**
 * How the lever at a node has to stand for a passage from one edge to another that meet there.
 *
 * @returns null where nothing is thrown; undefined where no train can pass so
 */
export function settingFor(node: TrackNode, from: EdgeId, to: EdgeId): TurnoutPosition | null | undefined {
  switch (node.kind) {
    case 'end':
      return undefined;
    case 'joint':
    case 'gap':
      return null;
    case 'turnout': {
      const leg = from === node.trunk ? to : to === node.trunk ? from : undefined;
      return leg === node.normal ? 'normal' : leg === node.reverse ? 'reverse' : undefined;
    }
    case 'crossing':
      if (node.ways.some((way) => partner(way, from) === to)) return isThrown(node) ? 'normal' : null;
      return node.slips?.some((slip) => partner(slip, from) === to) === true ? 'reverse' : undefined;
  }
}

/**
 * Every way on from a spot, whatever the turnouts stand at.
 *
 * @returns the spots at the far ends of the next edges, with the turnout setting each needs; none at an end of track
 */
export function onward(railroad: Railroad, spot: Spot): readonly Onward[] {
  const node = railroad.nodes.get(spot.toward);
  if (node === undefined) throw new Error(`no node ${spot.toward}`);
  return onwardEdges(railroad, node, spot.edge).map((next) => ({
    edge: next.edge,
    toward: otherEnd(railroad, next.edge, node.id),
    through: node.id,
    ...(next.setting === undefined ? {} : { setting: next.setting }),
    ...(next.selfLined === undefined ? {} : { selfLined: next.selfLined }),
  }));
}

/**
 * The way on with the turnouts as they stand.
 *
 * @param positionOf how each turnout (or crossing with slips) stands
 * @returns the next spot; undefined at an end of track, or where a turnout is set against the train
 */
export function onwardAsSet(
  railroad: Railroad,
  spot: Spot,
  positionOf: (node: NodeId) => TurnoutPosition,
): Onward | undefined {
  return onward(railroad, spot).find(
    (next) => next.setting === undefined || next.setting === positionOf(next.through),
  );
}

/** Whether a train may stop with its head at this node: a gap or an end of track. */
export function isStop(railroad: Railroad, node: NodeId): boolean {
  const kind = railroad.nodes.get(node)?.kind;
  return kind === 'gap' || kind === 'end';
}
