/** How far each block reaches. */
import type { BlockId, EdgeId, NodeId } from '../ids.ts';
import type { Millimetres } from '../units.ts';
import type { Railroad } from './railroad.ts';

export interface Extent {
  readonly id: BlockId;
  readonly edges: readonly EdgeId[];
  /** Of all its edges together. */
  readonly length: Millimetres;
  /** The gaps at its edges: those around it, and any with the block on both sides. */
  readonly gaps: readonly NodeId[];
}

/** Every block with its edges and gaps, all in the file's order. */
export function blockExtents(railroad: Railroad): readonly Extent[] {
  return railroad.document.blocks.map(({ id }) => {
    const edges = railroad.edgesOfBlock.get(id) ?? [];
    const inBlock = new Set(edges);
    const gaps = railroad.document.nodes.filter(
      (node) =>
        node.kind === 'gap' && (railroad.edgesAt.get(node.id) ?? []).some((edge) => inBlock.has(edge)),
    );
    return {
      id,
      edges,
      length: edges.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0),
      gaps: gaps.map((node) => node.id),
    };
  });
}
