/** Where the marks of sections and the ids of turnouts are written: where there is no track and no other name. */
import type { EdgeId } from '../../../shared-model/ids.ts';
import type { Polyline } from '../../../shared-model/polyline.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import {
  type Box,
  boxAround,
  type LabelWish,
  overlaps,
  type PlacedLabel,
  placeLabels,
} from '../../board/label-places.ts';
import { aroundSpot, besideLines } from '../../board/label-wishes.ts';
import { wordsPx } from '../../theme/letter-widths.ts';
import type { NodeSpot } from './pixel-track.ts';
import type { SectionLook } from './section-looks.ts';

/** Half of what is drawn of the track, with a little air, in pixels. */
const CLEARANCE_PX = 7;
/** Half of what is drawn of a node. */
const NODE_PX = 9;
/** How many of a section's pieces its name may stand beside. */
const MOST_PIECES = 3;
/** How near a mark a name has to stand to have stood aside for it: the width and height about the mark's middle. */
const FREED_PX = 160;
/** What a letter box is higher than its letters. */
const LINE_RATIO = 1.1;

export interface LetterPx {
  readonly desk: number;
  readonly fine: number;
}

export interface SpotFor extends PlacedLabel {
  readonly state: SectionLook['state'] | 'node';
  readonly hue: number | null;
}

/** Nodes that are thrown: their ids are said in orders. */
const THROWN: ReadonlySet<string> = new Set(['turnout', 'crossing']);

const EVERYWHERE: Box = {
  left: Number.NEGATIVE_INFINITY,
  top: Number.NEGATIVE_INFINITY,
  right: Number.POSITIVE_INFINITY,
  bottom: Number.POSITIVE_INFINITY,
};

/** What is wrong comes first and is always written, if need be over track; the mark of a block rather not than over another name. */
const isWrong = ({ state }: SectionLook): boolean => state === 'two-sources' || state === 'split';

/** What nothing feeds is written small: it may be all of the track while it is drawn. */
const lettersOf = ({ state }: SectionLook, letters: LetterPx): number =>
  state === 'dead' ? letters.fine : letters.desk;

/** Looks whose names are written, in the order in which they are given their spots. */
function inOrder(looks: readonly SectionLook[]): readonly SectionLook[] {
  const rank = (look: SectionLook): number => (isWrong(look) ? 0 : look.state === 'dead' ? 2 : 1);
  return [...looks].sort((one, other) => rank(one) - rank(other));
}

/** The names of a drawing with what they were placed for. */
export interface PlacedNames {
  readonly railroad: Railroad;
  /** Pixels to a square. */
  readonly scale: number;
  /** What was to be written beside each section, whether it found a spot or not. */
  readonly looks: readonly SectionLook[];
  /** What else they kept off. */
  readonly marks: readonly Box[];
  readonly spots: readonly SpotFor[];
}

/** Whether some edges lie as they lay before: an edit leaves what it does not touch the same objects. */
function liesAsBefore(edges: readonly EdgeId[], now: Railroad, before: Railroad): boolean {
  return edges.every((id) => {
    const edge = now.edges.get(id);
    return (
      edge !== undefined &&
      edge === before.edges.get(id) &&
      edge.between.every((node) => String(now.nodes.get(node)?.at) === String(before.nodes.get(node)?.at))
    );
  });
}

/**
 * Finds a spot for each name; a name that finds none is left out, for the line below the drawing says it.
 *
 * @param looks of the sections of the railroad
 * @param lines each edge in pixels
 * @param nodes where nodes are drawn, in pixels
 * @param letters sizes of letters in pixels
 * @param before the names as they were placed last, at the same scale: those of track that lies as it lay stay where they are
 * @param marks other marks on the drawing, in the same pixels, that no name may lie over
 * @returns the middle of each name and its box, in the same pixels
 */
export function labelSpots(
  railroad: Railroad,
  looks: readonly SectionLook[],
  lines: ReadonlyMap<EdgeId, Polyline>,
  nodes: readonly NodeSpot[],
  letters: LetterPx,
  before: PlacedNames | null = null,
  marks: readonly Box[] = [],
): readonly SpotFor[] {
  const stood = new Map(before?.spots.map((spot) => [spot.key, spot]));
  const there = new Set(marks.map(({ left, top }) => `${left} ${top}`));
  const freed = (before?.marks ?? [])
    .filter(({ left, top }) => !there.has(`${left} ${top}`))
    .map((box) => boxAround([(box.left + box.right) / 2, (box.top + box.bottom) / 2], FREED_PX, FREED_PX));
  const said = new Map(before?.looks.map(({ key, label }) => [key, label]));
  /** Where a name stood; nothing where it is new, said otherwise or of track that lies otherwise. */
  const standing = (key: string, words: string, edges: readonly EdgeId[]): Pick<LabelWish, 'before'> => {
    if (before === null || !liesAsBefore(edges, railroad, before.railroad)) return {};
    // The id of a thrown node is its key, and nothing else is ever written for it.
    if ((said.get(key) ?? key) !== words) return {};
    const spot = stood.get(key);
    // Where a mark has gone there is room again, for who stood aside and for who found none.
    if (freed.some((box) => spot === undefined || overlaps(box, spot.box))) return {};
    return { before: spot?.middle ?? null };
  };
  const written = (px: number) => (words: string) => ({
    width: wordsPx(words, px) + px / 3,
    height: px * LINE_RATIO,
  });
  const sections = inOrder(looks)
    .filter(({ edges }) => edges.some((edge) => lines.has(edge)))
    .map(
      (look): LabelWish => ({
        key: look.key,
        words: [look.label],
        needed: true,
        ...standing(look.key, look.label, look.edges),
        sizeOf: written(lettersOf(look, letters)),
        candidates: besideLines(
          look.edges.map((edge) => lines.get(edge) ?? []),
          CLEARANCE_PX + 2,
          MOST_PIECES,
        ),
      }),
    );
  const thrown = nodes
    .filter(({ node }) => THROWN.has(railroad.nodes.get(node)?.kind ?? 'end'))
    .map(
      ({ node, at }): LabelWish => ({
        key: node,
        words: [node],
        needed: false,
        ...standing(node, node, railroad.edgesAt.get(node) ?? []),
        candidates: aroundSpot(at, NODE_PX + 3, NODE_PX + 3),
      }),
    );
  const { fine } = letters;
  const byKey = new Map<string, SectionLook>(looks.map((look) => [look.key, look]));
  return placeLabels([...sections, ...thrown], {
    tracks: [...lines.values()],
    clearance: CLEARANCE_PX,
    taken: [...nodes.map(({ at }) => boxAround(at, 2 * NODE_PX, 2 * NODE_PX)), ...marks],
    within: EVERYWHERE,
    widthOf: (words) => written(fine)(words).width,
    height: fine * LINE_RATIO,
  }).map((label) => {
    const look = byKey.get(label.key);
    return { ...label, state: look?.state ?? 'node', hue: look?.hue ?? null };
  });
}
