/** How each section is drawn, as the gaps really leave it: a hue and mark for its block, and plainly wrong where nothing or too much feeds it. */
import type { BlockId } from '../../../shared-model/ids.ts';
import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import type { Railroad, Section } from '../../../shared-model/railroad/railroad.ts';

export interface SectionLook {
  readonly key: string;
  readonly state: 'fed' | 'dead' | 'two-sources' | 'split';
  /** 1 to 6; of track that nothing feeds, none. */
  readonly hue: number | null;
  readonly edges: Section['edges'];
  /** What is written beside it. */
  readonly label: string;
}

const HUES = 6;

/** A hue for each block: its own by its place in the list, unless a neighbour has that one. */
function huesOf(railroad: Railroad): ReadonlyMap<BlockId, number> {
  const { document, blockOfEdge, edgesAt } = railroad;
  const neighbours = new Map<BlockId, Set<BlockId>>(document.blocks.map(({ id }) => [id, new Set()]));
  for (const node of document.nodes) {
    if (node.kind !== 'gap' && node.kind !== 'crossing') continue;
    const blocks = (edgesAt.get(node.id) ?? []).map((edge) => blockOfEdge.get(edge));
    for (const one of blocks)
      for (const other of blocks)
        if (one !== undefined && other !== undefined && one !== other) neighbours.get(one)?.add(other);
  }
  const hues = new Map<BlockId, number>();
  document.blocks.forEach(({ id }, index) => {
    const near = new Set([...(neighbours.get(id) ?? [])].map((block) => hues.get(block)));
    const order = Array.from({ length: HUES }, (_, n) => ((index + n) % HUES) + 1);
    hues.set(id, order.find((hue) => !near.has(hue)) ?? (index % HUES) + 1);
  });
  return hues;
}

/** One look for each section, in the document's order. */
export function sectionLooks(railroad: Railroad): readonly SectionLook[] {
  const marks = blockMarks(railroad.document);
  const hues = huesOf(railroad);
  const pieces = new Map<BlockId, number>();
  for (const { blocks } of railroad.sections)
    for (const block of blocks) pieces.set(block, (pieces.get(block) ?? 0) + 1);
  return railroad.sections.map((section) => {
    const [block, other] = section.blocks;
    const state =
      block === undefined
        ? 'dead'
        : other !== undefined
          ? 'two-sources'
          : (pieces.get(block) ?? 0) > 1
            ? 'split'
            : 'fed';
    const named = section.blocks.map((id) => marks.get(id) ?? id);
    const label = {
      fed: named.join(''),
      dead: 'nothing feeds this',
      'two-sources': `${named.join(' and ')}: no gap between`,
      split: `${named.join('')}: in pieces`,
    }[state];
    return {
      key: section.edges[0] ?? '',
      state,
      hue: block === undefined ? null : (hues.get(block) ?? 1),
      edges: section.edges,
      label,
    };
  });
}
