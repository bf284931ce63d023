/** The railroad as numbers, worked out once for the searches of this room: spots, ways on, and the resources that exclude each other. */
import type { BlockId, NodeId, ThrottleId } from '../ids.ts';
import type { TrackNode, TurnoutPosition } from '../railroad/document.ts';
import { type Feed, feedOf } from '../railroad/feed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { isStop, onward, type Spot } from '../railroad/travel.ts';
import { trackGraph } from '../railroad/way-graph.ts';
import type { Millimetres } from '../units.ts';

/** One way on from a spot. */
export interface Way {
  /** The spot at the far end of the next edge. */
  readonly to: number;
  /** Whether a gap is crossed. */
  readonly gap: boolean;
  /** The resource of the diamond that is passed; -1 where none is. */
  readonly diamond: number;
  /** The lever of the turnout or slip; null where there is none. */
  readonly lever: Lever | null;
}

/** A lever and how it has to stand; of a self-lining turnout that is `trailed`, how the train leaves it, however it stood before. */
export interface Lever {
  readonly id: NodeId;
  readonly position: TurnoutPosition;
  readonly trailed: boolean;
}

/**
 * Resources are what one train has at a time: the blocks (numbered as in the document), then the diamonds of insulated crossings.
 * Spots are numbered as in the track graph: twice the edge's number, plus one when facing the second of its nodes.
 */
export interface TrackTable {
  readonly railroad: Railroad;
  readonly spots: readonly Spot[];
  spotNumber(spot: Spot): number;
  readonly ways: readonly (readonly Way[])[];
  /** Whether a train may stop with its head at the far end of a spot. */
  readonly stops: readonly boolean[];
  /** Length of each spot's edge. */
  readonly lengthMm: readonly Millimetres[];
  /** Block of each spot; -1 on dead track. */
  readonly blockOf: readonly number[];
  readonly blocks: readonly BlockId[];
  readonly blockNumber: ReadonlyMap<BlockId, number>;
  /** The insulated crossings; diamond d is resource `blocks.length + d`. */
  readonly diamonds: readonly NodeId[];
  readonly resources: number;
  /** What feeds each block; null where nothing can. */
  readonly feeds: readonly (Feed | null)[];
  /** The blocks through which a section behind toggles is fed: its parent, and the parent's parents. */
  readonly parents: readonly (readonly number[])[];
}

/** A value that is known to be there; anything else is a bug, not a user's mistake. */
export function must<T>(value: T | undefined | null): T {
  if (value === undefined || value === null) throw new Error('a number of the track table leads nowhere');
  return value;
}

function parentsOf(railroad: Railroad, block: BlockId): readonly BlockId[] {
  const found: BlockId[] = [];
  for (let at = block; ; ) {
    const source = railroad.blocks.get(at)?.source;
    if (source === undefined || !('toggle' in source) || found.includes(source.from)) return found;
    found.push(source.from);
    at = source.from;
  }
}

const isDiamond = (node: TrackNode): boolean => node.kind === 'crossing' && node.insulated;

const nameOf = (spot: Spot): string => `${spot.edge} ${spot.toward}`;

const tables = new WeakMap<Railroad, TrackTable>();

function build(railroad: Railroad): TrackTable {
  const graph = trackGraph(railroad);
  const blocks = railroad.document.blocks.map(({ id }) => id);
  const blockNumber = new Map(blocks.map((id, number) => [id, number]));
  const diamonds = railroad.document.nodes.filter(isDiamond).map(({ id }) => id);
  const spotNumber = new Map(graph.spots.map((spot, number) => [nameOf(spot), number]));
  const diamondOf = new Map(diamonds.map((id, index) => [id, blocks.length + index]));
  return {
    railroad,
    spots: graph.spots,
    spotNumber: (spot) => must(spotNumber.get(nameOf(spot))),
    ways: graph.spots.map((spot) =>
      onward(railroad, spot).map(
        (next): Way => ({
          to: must(spotNumber.get(nameOf(next))),
          gap: railroad.nodes.get(next.through)?.kind === 'gap',
          diamond: diamondOf.get(next.through) ?? -1,
          lever:
            next.setting === undefined
              ? null
              : { id: next.through, position: next.setting, trailed: next.selfLined === true },
        }),
      ),
    ),
    stops: graph.spots.map(({ toward }) => isStop(railroad, toward)),
    lengthMm: graph.spots.map(({ edge }) => must(railroad.edges.get(edge)).length),
    blockOf: graph.blocks.map((block) => (block === undefined ? -1 : must(blockNumber.get(block)))),
    blocks,
    blockNumber,
    diamonds,
    resources: blocks.length + diamonds.length,
    feeds: blocks.map((block) => feedOf(railroad, block)),
    parents: blocks.map((block) => parentsOf(railroad, block).map((parent) => must(blockNumber.get(parent)))),
  };
}

/** The track table of a railroad whose references are whole, worked out at the first question and kept with it. */
export function trackTable(railroad: Railroad): TrackTable {
  const known = tables.get(railroad);
  if (known !== undefined) return known;
  const made = build(railroad);
  tables.set(railroad, made);
  return made;
}

/** Whether a block's source can be a cab. */
export function canFeed(table: TrackTable, block: number, cab: ThrottleId): boolean {
  return table.feeds[block]?.throttles.includes(cab) === true;
}

/** The same edge, faced the other way. */
export function turnedSpot(spot: number): number {
  return spot ^ 1;
}
