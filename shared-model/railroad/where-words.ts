/** Where something is, in the owner's words: blocks by mark and name, a facing by the block beyond, a gap by the blocks that it parts. */
import type { BlockId, NodeId } from '../ids.ts';
import { blockMarks } from './block-marks.ts';
import type { Railroad } from './railroad.ts';
import { isStop, onward, type Spot } from './travel.ts';

/** A block's mark with its name: "5 Siding"; only one of them where they are the same. */
export const blockTitle = (mark: string, name: string): string => (mark === name ? mark : `${mark} ${name}`);

/** A block as it is marked on the board: "5"; what is no block, by its id. */
const markOf = (railroad: Railroad, id: string): string =>
  blockMarks(railroad.document).get(id as BlockId) ?? id;

/** "5 Siding"; what is no block of the railroad, by its id. */
export function blockName(railroad: Railroad, id: string): string {
  const block = railroad.blocks.get(id as BlockId);
  return block === undefined ? id : blockTitle(markOf(railroad, id), block.name);
}

/** Every spot of a block where a head may stop: at a gap or an end of track. */
export function stopsIn(railroad: Railroad, block: BlockId): readonly Spot[] {
  return (railroad.edgesOfBlock.get(block) ?? []).flatMap((edge) =>
    (railroad.edges.get(edge)?.between ?? [])
      .filter((node) => isStop(railroad, node))
      .map((toward) => ({ edge, toward })),
  );
}

/** The blocks on the other side of the node that a spot faces. */
export function beyond(railroad: Railroad, spot: Spot): readonly BlockId[] {
  return onward(railroad, spot).flatMap(({ edge }) => railroad.blockOfEdge.get(edge) ?? []);
}

/** "facing 4", "facing the end of track"; short of a turnout, "facing turnout T5". */
export function facingWords(railroad: Railroad, spot: Spot): string {
  const node = railroad.nodes.get(spot.toward);
  if (node?.kind === 'turnout' || node?.kind === 'crossing') return `facing ${node.kind} ${node.id}`;
  const next = beyond(railroad, spot).map((block) => markOf(railroad, block));
  return next.length === 0 ? 'facing the end of track' : `facing ${next.join(' or ')}`;
}

/** Where a head is: "3 Depot Main, facing 4"; where another stop of the block reads the same, its edge or its node too: "6 Yard (e7), facing 2". */
export function spotWords(railroad: Railroad, spot: Spot): string {
  const block = railroad.blockOfEdge.get(spot.edge);
  const facing = facingWords(railroad, spot);
  if (block === undefined) return `${spot.edge}, ${facing}`;
  const alike = stopsIn(railroad, block).filter(
    (other) =>
      (other.edge !== spot.edge || other.toward !== spot.toward) && facingWords(railroad, other) === facing,
  );
  const edge = alike.some((other) => other.edge !== spot.edge)
    ? ` (${railroad.edges.get(spot.edge)?.name ?? spot.edge})`
    : '';
  const end = alike.some((other) => other.edge === spot.edge) ? ` by ${spot.toward}` : '';
  return `${blockName(railroad, block)}${edge}, ${facing}${end}`;
}

const blocksAt = (railroad: Railroad, node: NodeId): readonly BlockId[] =>
  [
    ...new Set((railroad.edgesAt.get(node) ?? []).flatMap((edge) => railroad.blockOfEdge.get(edge) ?? [])),
  ].toSorted();

/**
 * A gap by the blocks that it parts: "the gap between 3 and 4"; where another gap reads the same, with its id.
 *
 * @returns what is no gap, by its id
 */
export function gapWords(railroad: Railroad, gap: string): string {
  const between = (node: NodeId): string => {
    const marks = blocksAt(railroad, node).map((block) => markOf(railroad, block));
    if (marks.length === 0) return '';
    return marks.length === 1 ? `the gap in ${marks[0] ?? ''}` : `the gap between ${marks.join(' and ')}`;
  };
  if (railroad.nodes.get(gap as NodeId)?.kind !== 'gap') return gap;
  const says = between(gap as NodeId);
  const alike = railroad.document.nodes.some(
    ({ id, kind }) => kind === 'gap' && id !== gap && between(id) === says,
  );
  return says === '' ? `gap ${gap}` : `${says}${alike ? ` (${gap})` : ''}`;
}
