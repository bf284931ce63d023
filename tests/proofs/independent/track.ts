/** The railroad as plain tables, worked out from the document alone: edges, the block of each, the ways through each node. */

import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { sure } from './sure.ts';

export type Doc = RailroadDocument;
export type Setting = 'normal' | 'reverse';

/** A way through a node from one edge to another. `setting` is what must be thrown for it; null: nothing. */
export interface Passage {
  node: string;
  from: string;
  to: string;
  setting: Setting | null;
  /** A self-lining turnout run through from a leg: the train moves it, nobody throws it. */
  trails: boolean;
  gap: boolean;
  /** The diamond of an insulated crossing. */
  diamond: boolean;
}

export interface Spot {
  edge: string;
  toward: string;
}

export interface Track {
  doc: Doc;
  length: Record<string, number>;
  ends: Record<string, [string, string]>;
  kind: Record<string, string>;
  blockOf: Record<string, string>;
  /** Nodes that are thrown: turnouts and crossings with slips, in the order of the file. */
  thrown: string[];
  gaps: string[];
}

export const otherEnd = (track: Track, edge: string, node: string): string => {
  const [a, b] = sure(track.ends[edge]);
  return a === node ? b : a;
};

const edgesAt = (doc: Doc, node: string): string[] =>
  doc.edges.filter((e) => e.between.includes(node as never)).map((e) => e.id);

/** Pairs of edges that are one piece of metal at a node. */
function joined(doc: Doc): [string, string][] {
  const pairs: [string, string][] = [];
  for (const node of doc.nodes) {
    if (node.kind === 'joint' || node.kind === 'turnout') {
      const all = edgesAt(doc, node.id);
      for (const edge of all.slice(1)) pairs.push([sure(all[0]), edge]);
    }
    if (node.kind === 'crossing') {
      const [[a, b], [c, d]] = node.ways;
      pairs.push([a, b], [c, d]);
      if (!node.insulated) pairs.push([a, c]);
    }
  }
  return pairs;
}

export function trackOf(doc: Doc): Track {
  const pairs = joined(doc);
  const blockOf: Record<string, string> = {};
  for (const block of doc.blocks) {
    const reached = new Set<string>(block.feeders.map((feeder) => feeder.edge));
    for (let before = -1; before !== reached.size; ) {
      before = reached.size;
      for (const [a, b] of pairs) if (reached.has(a) || reached.has(b)) reached.add(a).add(b);
    }
    for (const edge of reached) blockOf[edge] ??= block.id;
  }
  return {
    doc,
    length: Object.fromEntries(doc.edges.map((e) => [e.id, e.length])),
    ends: Object.fromEntries(doc.edges.map((e) => [e.id, e.between])),
    kind: Object.fromEntries(doc.nodes.map((n) => [n.id, n.kind])),
    blockOf,
    thrown: doc.nodes
      .filter((n) => n.kind === 'turnout' || (n.kind === 'crossing' && n.slips))
      .map((n) => n.id),
    gaps: doc.nodes.filter((n) => n.kind === 'gap').map((n) => n.id),
  };
}

/** Every way on from an edge through one of its nodes. */
export function passages(track: Track, edge: string, node: string): Passage[] {
  const at = sure(track.doc.nodes.find((n) => n.id === node));
  const way = (to: string, setting: Setting | null, more: Partial<Passage> = {}): Passage => ({
    node,
    from: edge,
    to,
    setting,
    trails: false,
    gap: false,
    diamond: false,
    ...more,
  });
  if (at.kind === 'joint' || at.kind === 'gap')
    return edgesAt(track.doc, node)
      .filter((other) => other !== edge)
      .map((other) => way(other, null, { gap: at.kind === 'gap' }));
  if (at.kind === 'turnout') {
    if (edge === at.trunk) return [way(at.normal, 'normal'), way(at.reverse, 'reverse')];
    const trails = at.selfLining === true;
    return [way(at.trunk, edge === at.normal ? 'normal' : 'reverse', { trails })];
  }
  if (at.kind === 'crossing') {
    const partner = (pairs: readonly (readonly string[])[]): string[] =>
      pairs.flatMap(([a, b]) => (a === edge ? [sure(b)] : b === edge ? [sure(a)] : []));
    const more = { diamond: at.insulated };
    return [
      ...partner(at.ways).map((to) => way(to, at.slips ? 'normal' : null, more)),
      ...partner(at.slips ?? []).map((to) => way(to, 'reverse', more)),
    ];
  }
  return [];
}

/** The way on along the turnouts as they stand, or null at an end or against a turnout. */
export function onward(track: Track, at: Spot, turnouts: Record<string, Setting>): Passage | null {
  const ways = passages(track, at.edge, at.toward);
  return ways.find((way) => way.setting === null || turnouts[way.node] === way.setting) ?? null;
}

export const isStop = (track: Track, node: string): boolean =>
  track.kind[node] === 'gap' || track.kind[node] === 'end';

/** The block that a node with blades or a diamond lies in: that of its edges; where a slip joins two, the one that is entered by it. */
export const blockOfPassage = (track: Track, passage: Passage): string => sure(track.blockOf[passage.to]);

/** A piece of the way that a train has come, or will go: over `by` (null: nobody knows how) into the edge, facing a node. */
export interface Stretch extends Spot {
  by: Passage | null;
}

/** The same way through a node, run in the other direction. */
export function reversed(track: Track, passage: Passage): Passage {
  return sure(passages(track, passage.to, passage.node).find((way) => way.to === passage.from));
}

/**
 * The edges that a train of a length lies on, head first, laid back along the turnouts as they stand.
 * `fits` is false when the track ends, a turnout is set against it, or it would lie on an edge twice.
 */
export function laidBack(
  track: Track,
  head: Spot,
  length: number,
  turnouts: Record<string, Setting>,
): { trail: Stretch[]; fits: boolean } {
  const trail: Stretch[] = [{ ...head, by: null }];
  let ahead = sure(track.length[head.edge]);
  while (ahead < length) {
    const last = sure(trail.at(-1));
    const back = otherEnd(track, last.edge, last.toward);
    const way = onward(track, { edge: last.edge, toward: back }, turnouts);
    if (way === null || trail.some((piece) => piece.edge === way.to)) return { trail, fits: false };
    last.by = reversed(track, way);
    trail.push({ edge: way.to, toward: back, by: null });
    ahead += sure(track.length[way.to]);
  }
  return { trail, fits: true };
}

/** The part of a trail under a train: edges from the head back, while what lies ahead of an edge is shorter than the train. */
export function underOf(track: Track, trail: readonly Stretch[], length: number): Stretch[] {
  const under: Stretch[] = [];
  let ahead = 0;
  for (const piece of trail) {
    if (ahead >= length) break;
    under.push(piece);
    ahead += sure(track.length[piece.edge]);
  }
  return under;
}

/** The ways through nodes between the edges of a trail: what lies between two neighbours of it. */
export function within(trail: readonly Stretch[]): Passage[] {
  return trail.slice(0, -1).flatMap((piece) => (piece.by === null ? [] : [piece.by]));
}

/** Every gap that joins two blocks, in the order of the file. A slip of an insulated crossing is no gap. */
export function gapsBetween(track: Track, a: string, b: string): Passage[] {
  return track.doc.nodes.flatMap((node) => {
    if (node.kind !== 'gap') return [];
    const ways = edgesAt(track.doc, node.id).flatMap((edge) => passages(track, edge, node.id));
    return ways.filter((way) => track.blockOf[way.from] === a && track.blockOf[way.to] === b).slice(0, 1);
  });
}
