/** The lines that the blocks are drawn with, as SVG paths; each kept while the layout and the turnouts in it stay. */
import type { BlockId, NodeId } from '../../shared-model/ids.ts';
import type { TurnoutPosition } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { type ChainEnd, shortenedChain } from './block-chains.ts';
import { type BoardLayout, badgeSpots, chainsOf } from './board-layout.ts';
import { bandPath } from './capsule.ts';
import { CUT_PX } from './gap-mark.tsx';
import { linePath, type Point } from './polyline.ts';
import { partedAtCrossing, partedLeg } from './set-legs.ts';

/** Track that begins so far from a turnout or crossing is plainly not joined to it, in parts of the letter size. */
const PARTED_LETTERS = 1;

/** Half the width of what is pressed on the board: 44 px in all, the floor of WCAG 2.5.5. */
export const REACH_PX = 22;

export type PositionOf = (node: NodeId) => TurnoutPosition;

export interface BlockPaths {
  /** The `d` of a block's path, with the legs that are not set parted from their turnouts. Null: track in no block. */
  pathOf(block: BlockId | null, positionOf: PositionOf): string;
  /** The band along its track that can be pressed, as the `d` of closed paths. */
  reachOf(block: BlockId): string;
  /** Where the cab's badge is repeated along it; the same list each time. */
  badgesOf(block: BlockId): readonly Point[];
}

export function blockPaths(railroad: Railroad, layout: BoardLayout): BlockPaths {
  const paths = new Map<string, string>();
  const reaches = new Map<BlockId, string>();
  const badges = new Map<BlockId, readonly Point[]>();

  const nodesOf = (block: BlockId | null): readonly NodeId[] =>
    chainsOf(layout, block).flatMap(({ start, end }) => [start.node, end.node]);

  const backAt = ({ node: id, edge }: ChainEnd, positionOf: PositionOf): number => {
    const node = railroad.nodes.get(id);
    const parted = layout.sizes.letter * PARTED_LETTERS;
    if (node?.kind === 'gap') return CUT_PX + 1;
    if (node?.kind === 'turnout') return partedLeg(node, positionOf(id)) === edge ? parted : 0;
    if (node?.kind === 'crossing')
      return partedAtCrossing(node, positionOf(id)).includes(edge) ? parted * 0.6 : 0;
    return 0;
  };

  return {
    pathOf(block, positionOf) {
      const key = [block ?? '', ...nodesOf(block).map(positionOf)].join(' ');
      const known = paths.get(key);
      if (known !== undefined) return known;
      const path = chainsOf(layout, block)
        .map((chain) => linePath(shortenedChain(chain, (end) => backAt(end, positionOf))))
        .join('');
      paths.set(key, path);
      return path;
    },
    reachOf(block) {
      const known = reaches.get(block);
      if (known !== undefined) return known;
      const reach = chainsOf(layout, block)
        .map(({ line }) => bandPath(line, REACH_PX))
        .join('');
      reaches.set(block, reach);
      return reach;
    },
    badgesOf(block) {
      const known = badges.get(block);
      if (known !== undefined) return known;
      const spots = badgeSpots(chainsOf(layout, block), layout.sizes.badge);
      badges.set(block, spots);
      return spots;
    },
  };
}
