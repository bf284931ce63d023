/** A sketch of track by names: nodes that say which neighbour each leg leads to, from which ids are given in order. */
import { type EdgeId, edgeId, type NodeId, nodeId } from '../../ids.ts';
import type { Millimetres } from '../../units.ts';
import type { TrackEdge, TrackNode } from '../document.ts';

export type Spot = readonly [x: number, y: number];

export type SketchNode =
  | { readonly name: string; readonly kind: 'end' | 'gap'; readonly at: Spot; readonly alsoAt?: Spot }
  /** Legs are named by the node at their other end. */
  | {
      readonly name: string;
      readonly kind: 'turnout';
      readonly at: Spot;
      readonly trunk: string;
      readonly normal: string;
      readonly reverse: string;
    };

export interface SketchEdge {
  readonly from: string;
  readonly to: string;
  readonly length: Millimetres;
  readonly shape?: readonly Spot[];
}

/** Where a block is fed, and what it is called. */
export interface SketchBlock {
  readonly name: string;
  /** The loop that it belongs to, from 0: wired straight, it is on that loop's throttle. */
  readonly loop: number;
  /** The names at the two ends of the edge that its feeder is on. */
  readonly feeder: readonly [string, string];
  /** Owners build their first selectors in here. */
  readonly early: boolean;
  /** The block (by its name) in front of the toggle behind which this one lies. */
  readonly behind?: string;
}

/** A spot where trains are sent: the edge between two names, left toward the second. */
export interface SketchPlace {
  readonly name: string;
  readonly tracks: readonly (readonly [string, string])[];
}

export interface Sketch {
  readonly nodes: readonly SketchNode[];
  readonly edges: readonly SketchEdge[];
  readonly blocks: readonly SketchBlock[];
  readonly places: readonly SketchPlace[];
}

export const EMPTY_SKETCH: Sketch = { nodes: [], edges: [], blocks: [], places: [] };

/** Several sketches as one, in that order. */
export const together = (...parts: readonly Sketch[]): Sketch => ({
  nodes: parts.flatMap((part) => part.nodes),
  edges: parts.flatMap((part) => part.edges),
  blocks: parts.flatMap((part) => part.blocks),
  places: parts.flatMap((part) => part.places),
});

const LETTERS = { end: 'n', gap: 'g', turnout: 'T' } as const;

export interface NumberedTrack {
  readonly nodes: readonly TrackNode[];
  readonly edges: readonly TrackEdge[];
  readonly node: (name: string) => NodeId;
  /** The edge between two names, whichever comes first. */
  readonly edge: (one: string, other: string) => EdgeId;
}

function found<Value>(value: Value | undefined, what: string): Value {
  if (value === undefined) throw new Error(`the sketch names ${what}, which is not in it`);
  return value;
}

/** Gives every node and edge of a sketch its id: gaps g1, turnouts T1, ends n1, edges e1 and on, in the sketch's order. */
export function numbered(sketch: Sketch): NumberedTrack {
  const nodeIds = new Map<string, NodeId>();
  const counts = { end: 0, gap: 0, turnout: 0 };
  for (const { name, kind } of sketch.nodes) {
    counts[kind] += 1;
    nodeIds.set(name, nodeId.parse(`${LETTERS[kind]}${counts[kind]}`));
  }
  const node = (name: string) => found(nodeIds.get(name), name);
  const edgeIds = new Map<string, EdgeId>();
  for (const [index, { from, to }] of sketch.edges.entries()) {
    const id = edgeId.parse(`e${index + 1}`);
    edgeIds.set(`${from} ${to}`, id).set(`${to} ${from}`, id);
  }
  const edge = (one: string, other: string) => found(edgeIds.get(`${one} ${other}`), `${one} to ${other}`);
  return {
    node,
    edge,
    nodes: sketch.nodes.map((each): TrackNode => {
      const at: [number, number] = [...each.at];
      if (each.kind === 'turnout')
        return {
          id: node(each.name),
          kind: 'turnout',
          at,
          trunk: edge(each.name, each.trunk),
          normal: edge(each.name, each.normal),
          reverse: edge(each.name, each.reverse),
        };
      return {
        id: node(each.name),
        kind: each.kind,
        at,
        ...(each.alsoAt === undefined ? {} : { alsoAt: [...each.alsoAt] }),
      };
    }),
    edges: sketch.edges.map(({ from, to, length, shape }) => ({
      id: edge(from, to),
      between: [node(from), node(to)],
      length,
      ...(shape === undefined ? {} : { shape: shape.map(([x, y]): [number, number] => [x, y]) }),
    })),
  };
}
