/**
 * A railroad document made ready for questions: everything by id, the edges at each node, sections from gaps, the block of each edge.
 * Built once for a document whose references are whole (see `brokenReferences` in audit); it never changes afterwards.
 */
import type { BlockId, EdgeId, NodeId, SelectorId, SupplyId, ThrottleId, ToggleId, TrainId } from '../ids.ts';
import type {
  Block,
  RailroadDocument,
  Selector,
  Supply,
  Throttle,
  Toggle,
  TrackEdge,
  TrackNode,
  Train,
} from './document.ts';

/** One electrical section: what the gaps leave connected. */
export interface Section {
  readonly edges: readonly EdgeId[];
  /** The blocks whose feeders are on it: one when all is well. */
  readonly blocks: readonly BlockId[];
}

export interface Railroad {
  readonly document: RailroadDocument;
  readonly nodes: ReadonlyMap<NodeId, TrackNode>;
  readonly edges: ReadonlyMap<EdgeId, TrackEdge>;
  readonly edgesAt: ReadonlyMap<NodeId, readonly EdgeId[]>;
  readonly supplies: ReadonlyMap<SupplyId, Supply>;
  readonly throttles: ReadonlyMap<ThrottleId, Throttle>;
  readonly selectors: ReadonlyMap<SelectorId, Selector>;
  readonly toggles: ReadonlyMap<ToggleId, Toggle>;
  readonly blocks: ReadonlyMap<BlockId, Block>;
  readonly trains: ReadonlyMap<TrainId, Train>;
  readonly sections: readonly Section[];
  /** The block that an edge is in; an edge of dead track has none. */
  readonly blockOfEdge: ReadonlyMap<EdgeId, BlockId>;
  readonly edgesOfBlock: ReadonlyMap<BlockId, readonly EdgeId[]>;
}

const byId = <T extends { id: string }>(list: readonly T[]): ReadonlyMap<T['id'], T> =>
  new Map(list.map((thing) => [thing.id, thing]));

/** The groups of edges at a node that are electrically one: all of them, but none across a gap or between the ways of an insulated crossing. */
export function joinedAt(node: TrackNode, edges: readonly EdgeId[]): readonly (readonly EdgeId[])[] {
  if (node.kind === 'gap') return edges.map((edge) => [edge]);
  if (node.kind === 'crossing' && node.insulated) return node.ways;
  return [edges];
}

/** The electrical sections of a document, each with its edges in the file's order. */
function sectionsOf(
  document: RailroadDocument,
  edgesAt: ReadonlyMap<NodeId, readonly EdgeId[]>,
): readonly Section[] {
  const leader = new Map<EdgeId, EdgeId>(document.edges.map((edge) => [edge.id, edge.id]));
  const find = (edge: EdgeId): EdgeId => {
    let at = edge;
    for (let up = leader.get(at); up !== undefined && up !== at; up = leader.get(at)) at = up;
    return at;
  };
  for (const node of document.nodes)
    for (const group of joinedAt(node, edgesAt.get(node.id) ?? []))
      for (const edge of group.slice(1)) {
        const first = group[0];
        if (first !== undefined && leader.has(edge) && leader.has(first)) leader.set(find(edge), find(first));
      }
  const edges = new Map<EdgeId, EdgeId[]>();
  for (const { id } of document.edges) edges.set(find(id), [...(edges.get(find(id)) ?? []), id]);
  const blocks = new Map<EdgeId, Set<BlockId>>();
  for (const block of document.blocks)
    for (const feeder of block.feeders) {
      if (!leader.has(feeder.edge)) continue;
      const section = find(feeder.edge);
      blocks.set(section, (blocks.get(section) ?? new Set()).add(block.id));
    }
  return [...edges].map(([section, list]) => ({ edges: list, blocks: [...(blocks.get(section) ?? [])] }));
}

/**
 * Makes a document ready for questions.
 *
 * Where two blocks feed one section (`two-sources`) its track counts as the first block's; a section without feeder is in no block.
 *
 * @param document a parsed railroad document
 * @returns the indexed railroad
 */
export function indexRailroad(document: RailroadDocument): Railroad {
  const edgesAt = new Map<NodeId, EdgeId[]>(document.nodes.map((node) => [node.id, []]));
  for (const edge of document.edges) for (const node of edge.between) edgesAt.get(node)?.push(edge.id);
  const sections = sectionsOf(document, edgesAt);
  const blockOfEdge = new Map<EdgeId, BlockId>();
  for (const section of sections) {
    const block = section.blocks[0];
    if (block !== undefined) for (const edge of section.edges) blockOfEdge.set(edge, block);
  }
  const edgesOfBlock = new Map<BlockId, EdgeId[]>(document.blocks.map((block) => [block.id, []]));
  for (const { id } of document.edges) {
    const block = blockOfEdge.get(id);
    if (block !== undefined) edgesOfBlock.get(block)?.push(id);
  }
  return {
    document,
    nodes: byId(document.nodes),
    edges: byId(document.edges),
    edgesAt,
    supplies: byId(document.supplies),
    throttles: byId(document.throttles),
    selectors: byId(document.selectors),
    toggles: byId(document.toggles),
    blocks: byId(document.blocks),
    trains: byId(document.trains),
    sections,
    blockOfEdge,
    edgesOfBlock,
  };
}
