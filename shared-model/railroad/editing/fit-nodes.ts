/** Nodes made to fit the edges that meet at them: one edge is an end of track, two a joint, three a turnout, four a crossing. */
import type { EdgeId, NodeId } from '../../ids.ts';
import type { TrackEdge, TrackNode } from '../document.ts';
import { isThrown } from '../travel.ts';
import { type DraftDocument, freshId } from './draft.ts';
import { withId } from './rename-id.ts';
import { bendBetween, directionAt, type Track, trackOf } from './track.ts';

/** Most edges that can meet at a node. */
export const MOST_EDGES = 4;

const PREFIXES: Readonly<Record<TrackNode['kind'], string>> = {
  end: 'n',
  joint: 'j',
  gap: 'g',
  turnout: 'T',
  crossing: 'X',
};

/** What ids of such a node begin with. */
export const prefixOf = (kind: TrackNode['kind']): string => PREFIXES[kind];

/** An id as it was given of itself, which may change with the kind of the node; one that somebody chose stays. */
const isOwnWord = (id: string): boolean => !/^[njgTX]\d+$/.test(id);

type Base = Pick<TrackNode, 'id' | 'at' | 'alsoAt'>;

interface Arm {
  readonly edge: EdgeId;
  readonly direction: number;
}

const bend = (one: Arm, other: Arm): number => bendBetween(one.direction, other.direction);

/** Of three arms, the trunk first (from it both ways are the straightest), then the straighter leg, then the other. */
export function legsInOrder(arms: readonly Arm[]): readonly Arm[] {
  const orders = arms.map((trunk) => {
    const legs = arms.filter((arm) => arm !== trunk).sort((a, b) => bend(trunk, a) - bend(trunk, b));
    return { order: [trunk, ...legs], bends: legs.reduce((sum, leg) => sum + bend(trunk, leg), 0) };
  });
  return orders.reduce((best, next) => (next.bends < best.bends - 1e-9 ? next : best)).order;
}

/** The three ways to pair four edges into two ways across. */
export function pairings<Item>([a, b, c, d]: readonly [Item, Item, Item, Item]): readonly [
  [Item, Item],
  [Item, Item],
][] {
  return [
    [
      [a, b],
      [c, d],
    ],
    [
      [a, c],
      [b, d],
    ],
    [
      [a, d],
      [b, c],
    ],
  ];
}

const sameEdges = (one: readonly EdgeId[], other: readonly EdgeId[]): boolean =>
  one.length === other.length && one.every((edge) => other.includes(edge));

function turnoutAt(base: Base, arms: readonly Arm[]): TrackNode {
  const [trunk, normal, reverse] = legsInOrder(arms) as [Arm, Arm, Arm];
  const { id, at } = base;
  return { id, kind: 'turnout', at, trunk: trunk.edge, normal: normal.edge, reverse: reverse.edge };
}

function crossingAt(base: Base, arms: readonly Arm[]): TrackNode {
  const straightest = pairings(arms as unknown as [Arm, Arm, Arm, Arm])
    .map((ways) => ({ ways, bends: ways.reduce((sum, [one, other]) => sum + bend(one, other), 0) }))
    .reduce((best, next) => (next.bends < best.bends - 1e-9 ? next : best));
  const [[a, b], [c, d]] = straightest.ways;
  const { id, at } = base;
  return {
    id,
    kind: 'crossing',
    at,
    ways: [
      [a.edge, b.edge],
      [c.edge, d.edge],
    ],
    insulated: false,
  };
}

/** The node as it has to be with the edges it has; null without any. */
function fitted(track: Track, node: TrackNode): TrackNode | null {
  const edges = track.edgesAt.get(node.id) ?? [];
  if (edges.length === 0) return null;
  const { id, at, alsoAt } = node;
  if (edges.length === 1) return node.kind === 'end' ? node : { id, kind: 'end', at };
  if (edges.length === 2)
    return node.kind === 'joint' || node.kind === 'gap'
      ? node
      : { id, kind: 'joint', at, ...(alsoAt === undefined ? {} : { alsoAt }) };
  const arms = edges.map((edge) => ({
    edge,
    direction: directionAt(track, track.edges.get(edge) as TrackEdge, id),
  }));
  if (edges.length === 3) {
    const fits = node.kind === 'turnout' && sameEdges([node.trunk, node.normal, node.reverse], edges);
    return fits ? node : turnoutAt(node, arms);
  }
  if (edges.length > MOST_EDGES) return node;
  return node.kind === 'crossing' && sameEdges(node.ways.flat(), edges) ? node : crossingAt(node, arms);
}

/** Settings without positions of nodes that nothing is thrown at any more. */
function withoutUnthrown(draft: DraftDocument): DraftDocument {
  const thrown = new Set<string>(draft.nodes.filter(isThrown).map(({ id }) => id));
  const stale = draft.settings.some(({ turnouts }) => Object.keys(turnouts).some((id) => !thrown.has(id)));
  if (!stale) return draft;
  const settings = draft.settings.map((setting) => ({
    ...setting,
    turnouts: Object.fromEntries(Object.entries(setting.turnouts).filter(([id]) => thrown.has(id))),
  }));
  return { ...draft, settings };
}

/**
 * Makes some nodes fit the edges that meet at them; a node without edges goes. A turnout or crossing whose edges are the same stays as
 * it is; a new one has its trunk and ways where the drawing is straightest. An id that was given of itself follows the kind.
 *
 * @param ids the nodes whose edges have changed; unknown ones are passed over
 */
export function fitNodes(draft: DraftDocument, ids: Iterable<NodeId>): DraftDocument {
  const track = trackOf(draft);
  const wanted = new Set(ids);
  const renamed: { readonly id: NodeId; readonly kind: TrackNode['kind'] }[] = [];
  const nodes = draft.nodes.flatMap((node) => {
    if (!wanted.has(node.id)) return [node];
    const fit = fitted(track, node);
    if (fit === null) return [];
    if (fit.kind !== node.kind && !isOwnWord(node.id)) renamed.push({ id: node.id, kind: fit.kind });
    return [fit];
  });
  const fit = withoutUnthrown({ ...draft, nodes });
  return renamed.reduce(
    (after, { id, kind }) =>
      id.startsWith(prefixOf(kind)) ? after : withId(after, id, freshId(after, prefixOf(kind))),
    fit,
  );
}
