/** What could be built next, each as the railroad document with it: a selector, a gap with a selector of its own, a siding. */
import type { BlockId, EdgeId, NodeId, SelectorId } from '../../ids.ts';
import type { Block, RailroadDocument, Selector, TrackEdge, TrackNode } from '../../railroad/document.ts';
import { indexRailroad, type Railroad } from '../../railroad/railroad.ts';
import type { Millimetres } from '../../units.ts';
import type { Help } from '../capacity-answer.ts';

export interface Change {
  readonly kind: Help['kind'];
  readonly block: BlockId;
  readonly document: RailroadDocument;
  readonly says: string;
}

/** Track of a turnout at each end of a siding. */
const LEAD_MM: Millimetres = 250;

/** An id that the document does not have yet. */
function freshId(document: RailroadDocument, wish: string): string {
  const text = JSON.stringify(document);
  let id = wish;
  for (let number = 2; text.includes(`"${id}"`); number += 1) id = `${wish}-${number}`;
  return id;
}

/** A dial with every throttle. */
function fullDial(document: RailroadDocument, id: string, name: string): Selector {
  return {
    id: id as SelectorId,
    name,
    positions: ['off', ...document.throttles.map((throttle) => throttle.id)],
    stops: true,
    contactAmps: Math.max(1, ...document.throttles.map(({ maxAmps }) => maxAmps)),
  };
}

function withSelector(document: RailroadDocument, block: Block): RailroadDocument {
  const id = freshId(document, `K-${block.id}`);
  return {
    ...document,
    selectors: [...document.selectors, fullDial(document, id, block.name)],
    blocks: document.blocks.map((other) =>
      other.id === block.id ? { ...other, source: { selector: id as SelectorId } } : other,
    ),
  };
}

/** A new block with a selector of its own, fed on an edge. */
function withBlock(document: RailroadDocument, edge: EdgeId, wish: string, name: string): RailroadDocument {
  const block = freshId(document, wish);
  const selector = freshId(document, `K-${block}`);
  return {
    ...document,
    selectors: [...document.selectors, fullDial(document, selector, name)],
    blocks: [
      ...document.blocks,
      {
        id: block as BlockId,
        name,
        source: { selector: selector as SelectorId },
        feeders: [{ edge }],
      },
    ],
  };
}

/** The edge cut in the middle by a gap; the part at its second node becomes a block. */
function withGap(document: RailroadDocument, block: Block, edge: TrackEdge): RailroadDocument {
  const gap = freshId(document, `g-${edge.id}`) as NodeId;
  const part = freshId(document, `${edge.id}-b`) as EdgeId;
  const [from, to] = edge.between;
  const half = edge.length / 2;
  const renamed = (node: TrackNode): TrackNode => {
    if (node.id !== to || node.kind !== 'turnout') return node;
    const swap = (leg: EdgeId): EdgeId => (leg === edge.id ? part : leg);
    return { ...node, trunk: swap(node.trunk), normal: swap(node.normal), reverse: swap(node.reverse) };
  };
  return withBlock(
    {
      ...document,
      nodes: [...document.nodes.map(renamed), { id: gap, kind: 'gap', at: [0, 0] }],
      edges: [
        ...document.edges.map((other) =>
          other.id === edge.id
            ? { ...edge, between: [from, gap] as const, length: half, shape: undefined }
            : other,
        ),
        { id: part, between: [gap, to], length: half },
      ] as RailroadDocument['edges'],
    },
    part,
    `${block.id}-b`,
    `${block.name}, second part`,
  );
}

/** A second track beside an edge, between two turnouts on it and two gaps. */
function withSiding(document: RailroadDocument, block: Block, edge: TrackEdge): RailroadDocument {
  const id = (wish: string): string => freshId(document, `${wish}-${edge.id}`);
  const [from, to] = edge.between;
  const [west, east] = [id('Tw') as NodeId, id('Te') as NodeId];
  const [gapWest, gapEast] = [id('gw') as NodeId, id('ge') as NodeId];
  const [middle, last] = [id('m') as EdgeId, id('l') as EdgeId];
  const [leadWest, siding, leadEast] = [id('lw') as EdgeId, id('s') as EdgeId, id('le') as EdgeId];
  const between = edge.length - 2 * LEAD_MM;
  const renamed = (node: TrackNode): TrackNode => {
    if (node.id !== to || node.kind !== 'turnout') return node;
    const swap = (leg: EdgeId): EdgeId => (leg === edge.id ? last : leg);
    return { ...node, trunk: swap(node.trunk), normal: swap(node.normal), reverse: swap(node.reverse) };
  };
  return withBlock(
    {
      ...document,
      nodes: [
        ...document.nodes.map(renamed),
        { id: west, kind: 'turnout', at: [0, 0], trunk: edge.id, normal: middle, reverse: leadWest },
        { id: east, kind: 'turnout', at: [0, 0], trunk: last, normal: middle, reverse: leadEast },
        { id: gapWest, kind: 'gap', at: [0, 0] },
        { id: gapEast, kind: 'gap', at: [0, 0] },
      ],
      edges: [
        ...document.edges.map((other) =>
          other.id === edge.id
            ? { ...edge, between: [from, west] as const, length: LEAD_MM, shape: undefined }
            : other,
        ),
        { id: middle, between: [west, east], length: between },
        { id: last, between: [east, to], length: LEAD_MM },
        { id: leadWest, between: [west, gapWest], length: 100 },
        { id: siding, between: [gapWest, gapEast], length: between },
        { id: leadEast, between: [gapEast, east], length: 100 },
      ] as RailroadDocument['edges'],
    },
    siding,
    `${block.id}-s`,
    `${block.name}, siding`,
  );
}

/** Whether every block is on one section of its own: a gap that does not part a block, or parts a feeder from it, is no change. */
function isWhole(document: RailroadDocument): boolean {
  const { sections } = indexRailroad(document);
  const fed = sections.flatMap(({ blocks }) => blocks);
  return sections.every(({ blocks }) => blocks.length <= 1) && new Set(fed).size === fed.length;
}

/**
 * What could be built: a selector for every block that is wired straight to a throttle; a gap in every edge whose halves hold the
 * longest train each; a siding beside every edge that holds it between two turnouts, a lead at each end. Edges at crossings are left
 * as they are.
 */
export function changesOf(railroad: Railroad): readonly Change[] {
  const { document } = railroad;
  const longest = Math.max(0, ...document.trains.map(({ length }) => length));
  const isPlain = (edge: TrackEdge): boolean =>
    edge.between.every((node) => railroad.nodes.get(node)?.kind !== 'crossing') &&
    edge.between[0] !== edge.between[1];
  const selectors = document.blocks
    .filter(({ source }) => 'throttle' in source)
    .map(
      (block): Change => ({
        kind: 'selector',
        block: block.id,
        document: withSelector(document, block),
        says: `a selector for ${block.name}`,
      }),
    );
  const onEdges = (
    kind: 'gap' | 'siding',
    leastMm: Millimetres,
    build: (document: RailroadDocument, block: Block, edge: TrackEdge) => RailroadDocument,
    words: string,
  ): Change[] =>
    document.edges.flatMap((edge) => {
      const block = railroad.blocks.get(railroad.blockOfEdge.get(edge.id) ?? ('' as BlockId));
      if (block === undefined || edge.length < leastMm || !isPlain(edge)) return [];
      return [
        {
          kind,
          block: block.id,
          document: build(document, block, edge),
          says: `${words} ${block.name} (track ${edge.name ?? edge.id})`,
        },
      ];
    });
  const all = [
    ...selectors,
    ...onEdges('siding', longest + 3 * LEAD_MM, withSiding, 'a siding beside'),
    ...onEdges('gap', 2 * longest, withGap, 'a gap in the middle of'),
  ];
  return all.filter((change) => isWhole(change.document));
}
