/** Nodes that do not fit their edges: too many or too few, or legs and ways that are not there. */
import type { EdgeId, NodeId } from '../ids.ts';
import type { Finding } from '../refusal.ts';
import type { CrossingNode, RailroadDocument, TrackNode, TurnoutNode } from './document.ts';
import { finding, inWords } from './findings.ts';

const broken = finding('broken-reference', 'error');

const EDGES_AT: Readonly<Record<TrackNode['kind'], { readonly count: number; readonly words: string }>> = {
  end: { count: 1, words: 'An end of track has 1 edge' },
  joint: { count: 2, words: 'A joint has 2 edges' },
  gap: { count: 2, words: 'A gap has 2 edges' },
  turnout: { count: 3, words: 'A turnout has 3 edges' },
  crossing: { count: 4, words: 'A crossing has 4 edges' },
};

function wrongCount(node: TrackNode, edges: readonly EdgeId[]): readonly Finding[] {
  const { count, words } = EDGES_AT[node.kind];
  if (edges.length === count) return [];
  const has = edges.length === 0 ? 'no edge' : inWords(edges);
  return [
    broken(
      [node.id, ...edges],
      `${words}, but ${node.id} has ${edges.length}: ${has}.`,
      edges.length < count
        ? `Draw what is missing at ${node.id}, or make it another kind of node.`
        : `Join the edges that are too many elsewhere, or make ${node.id} another kind of node.`,
    ),
  ];
}

function strayEdge(
  node: TrackNode,
  words: string,
  edge: EdgeId,
  edges: readonly EdgeId[],
): readonly Finding[] {
  if (edges.includes(edge)) return [];
  return [
    broken(
      [node.id, edge],
      `${words} of ${node.id} is "${edge}", which is not one of its edges (${inWords(edges) || 'it has none'}).`,
      `Name one of the edges that meet at ${node.id}.`,
    ),
  ];
}

function sameEdgeTwice(node: TrackNode, words: string, named: readonly EdgeId[]): readonly Finding[] {
  const twice = named.find((edge, index) => named.indexOf(edge) !== index);
  if (twice === undefined) return [];
  return [
    broken(
      [node.id, twice],
      `${words} of ${node.id} name edge ${twice} twice.`,
      `Name each of the edges that meet at ${node.id} once.`,
    ),
  ];
}

function brokenTurnout(node: TurnoutNode, edges: readonly EdgeId[]): readonly Finding[] {
  return [
    ...strayEdge(node, 'The trunk', node.trunk, edges),
    ...strayEdge(node, 'The normal leg', node.normal, edges),
    ...strayEdge(node, 'The reverse leg', node.reverse, edges),
    ...sameEdgeTwice(node, 'The trunk and legs', [node.trunk, node.normal, node.reverse]),
  ];
}

function brokenCrossing(node: CrossingNode, edges: readonly EdgeId[]): readonly Finding[] {
  const ways = node.ways.flat();
  const slips = (node.slips ?? []).flatMap((slip) => {
    const sides = slip.map((edge) => node.ways.findIndex((way) => way.includes(edge)));
    if (!sides.includes(-1) && sides[0] !== sides[1]) return [];
    return [
      broken(
        [node.id, ...slip],
        `A slip of ${node.id} joins ${slip.join(' and ')}, which are not an edge of one way and an edge of the other.`,
        `Let the slip join an edge of ${node.ways[0].join(', ')} with one of ${node.ways[1].join(', ')}.`,
      ),
    ];
  });
  return [
    ...ways.flatMap((edge) => strayEdge(node, 'A way', edge, edges)),
    ...sameEdgeTwice(node, 'The ways', ways),
    ...slips,
  ];
}

/** Nodes with the wrong number of edges, and legs, ways and slips that are not among them. */
export function brokenTrack(document: RailroadDocument): readonly Finding[] {
  const edgesAt = new Map<NodeId, EdgeId[]>();
  for (const edge of document.edges)
    for (const node of edge.between) edgesAt.set(node, [...(edgesAt.get(node) ?? []), edge.id]);
  return document.nodes.flatMap((node) => {
    const edges = edgesAt.get(node.id) ?? [];
    const counted = wrongCount(node, edges);
    if (node.kind === 'turnout') return [...counted, ...brokenTurnout(node, edges)];
    if (node.kind === 'crossing') return [...counted, ...brokenCrossing(node, edges)];
    return counted;
  });
}
