/** How each section is drawn, as the gaps really leave it: a hue and mark for its block, and plainly wrong where nothing or too much feeds it. */
import type { BlockId, EdgeId } from '../../../shared-model/ids.ts';
import { lineLength, type Point, type Polyline, pointAlong } from '../../../shared-model/polyline.ts';
import { blockMarks } from '../../../shared-model/railroad/block-marks.ts';
import type { Railroad, Section } from '../../../shared-model/railroad/railroad.ts';
import { linePath } from '../../board/polyline.ts';

export interface SectionLook {
  readonly key: string;
  readonly state: 'fed' | 'dead' | 'two-sources' | 'split';
  /** 1 to 6; of track that nothing feeds, none. */
  readonly hue: number | null;
  /** The `d` of all its edges, in squares. */
  readonly path: string;
  /** What is written on it, and where: in the middle of its longest edge. */
  readonly label: string;
  readonly at: Point;
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

function longestMiddle(section: Section, lines: ReadonlyMap<EdgeId, Polyline>): Point {
  let best: Polyline = [];
  for (const edge of section.edges) {
    const line = lines.get(edge) ?? [];
    if (best.length === 0 || lineLength(line) > lineLength(best)) best = line;
  }
  return pointAlong(best, lineLength(best) / 2).at;
}

/**
 * @param lines each edge as drawn, in squares
 * @returns one look for each section, in the document's order
 */
export function sectionLooks(
  railroad: Railroad,
  lines: ReadonlyMap<EdgeId, Polyline>,
): readonly SectionLook[] {
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
      path: section.edges.map((edge) => linePath(lines.get(edge) ?? [])).join(''),
      label,
      at: longestMiddle(section, lines),
    };
  });
}
