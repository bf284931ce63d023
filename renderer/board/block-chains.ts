/** The track of a block as chains: lines without a branch, from one gap, end, turnout or crossing to the next. */
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { lineLength, type Point, type Polyline, roundedLine, sliceLine } from './polyline.ts';
import { lineFrom } from './track-drawing.ts';

/** One end of a chain: the node it ends at and the edge by which. */
export interface ChainEnd {
  readonly node: NodeId;
  readonly edge: EdgeId;
}

export interface Chain {
  readonly line: Polyline;
  readonly start: ChainEnd;
  readonly end: ChainEnd;
}

/** The pieces that a block is drawn of. Edges in no block come under null: dead track. */
export type BlockChains = ReadonlyMap<BlockId | null, readonly Chain[]>;

/** Radius of rounded corners, in pixels. */
const CORNER_PX = 14;

/** Whether a line goes on through this node: a joint that is not drawn twice. */
function goesOn(railroad: Railroad, node: NodeId): boolean {
  const found = railroad.nodes.get(node);
  return found?.kind === 'joint' && found.alsoAt === undefined && railroad.edgesAt.get(node)?.length === 2;
}

/** The edges of a chain in order from one node on, which is an end of the chain or (on a ring of joints) anywhere. */
function edgesFrom(
  railroad: Railroad,
  first: EdgeId,
  from: NodeId,
): readonly { edge: EdgeId; from: NodeId }[] {
  const run = [{ edge: first, from }];
  for (;;) {
    const last = run.at(-1) as { edge: EdgeId; from: NodeId };
    const ends = railroad.edges.get(last.edge)?.between ?? [];
    const to = ends.find((node) => node !== last.from);
    if (to === undefined || !goesOn(railroad, to)) return run;
    const next = railroad.edgesAt.get(to)?.find((edge) => edge !== last.edge);
    if (next === undefined || run.some((done) => done.edge === next)) return run;
    run.push({ edge: next, from: to });
  }
}

const farNode = (railroad: Railroad, edge: EdgeId, from: NodeId): NodeId =>
  railroad.edges.get(edge)?.between.find((node) => node !== from) ?? from;

/**
 * Every block's chains.
 *
 * @param lines each edge's line in pixels
 */
export function blockChains(railroad: Railroad, lines: ReadonlyMap<EdgeId, Polyline>): BlockChains {
  const chains = new Map<BlockId | null, Chain[]>();
  const done = new Set<EdgeId>();
  for (const { id, between } of railroad.document.edges) {
    if (done.has(id)) continue;
    const back = edgesFrom(railroad, id, between[1]).at(-1) as { edge: EdgeId; from: NodeId };
    const run = edgesFrom(railroad, back.edge, farNode(railroad, back.edge, back.from));
    const points: Point[] = [];
    for (const { edge, from } of run) {
      done.add(edge);
      const line = lineFrom(railroad, lines, edge, from);
      points.push(...(points.length === 0 ? line : line.slice(1)));
    }
    const [first, last] = [run[0], run.at(-1)] as [(typeof run)[0], (typeof run)[0]];
    const block = railroad.blockOfEdge.get(id) ?? null;
    const chain: Chain = {
      line: roundedLine(points, CORNER_PX),
      start: { node: first.from, edge: first.edge },
      end: { node: farNode(railroad, last.edge, last.from), edge: last.edge },
    };
    chains.set(block, [...(chains.get(block) ?? []), chain]);
  }
  return chains;
}

/** A chain shortened at both ends, by what `back` says of each; never to less than a tenth of it. */
export function shortenedChain(chain: Chain, back: (end: ChainEnd) => number): Polyline {
  const length = lineLength(chain.line);
  const [start, end] = [back(chain.start), back(chain.end)];
  const share = Math.min(1, (0.9 * length) / Math.max(1e-9, start + end));
  return sliceLine(chain.line, start * share, length - end * share);
}
