/** Where everything that does not move is drawn, in pixels: track, gaps, turnouts and names. Anew for another document, zone, zoom or letter size. */
import type { BlockId, EdgeId, NodeId } from '../../shared-model/ids.ts';
import type { CrossingNode, TrackNode, TurnoutNode } from '../../shared-model/railroad/document.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../shared-model/railroad/travel.ts';
import { wordsPx } from '../theme/letter-widths.ts';
import { type BlockChains, blockChains, type Chain } from './block-chains.ts';
import { type BoardSizes, boardSizes } from './board-sizes.ts';
import { type Box, type Ground, type PlacedLabel, placeLabels, trackUnder } from './label-places.ts';
import { blockWish, placeWish, turnoutWish } from './label-wishes.ts';
import { lineLength, type Point, type Polyline, pointAlong } from './polyline.ts';
import { fitted, projected, projectedLine, type Sight, type Size } from './projection.ts';
import { endPoint, type TrackDrawing } from './track-drawing.ts';

/** A cut of the rail: its middle, and the direction of the track there. */
export interface GapSpot {
  readonly id: NodeId;
  readonly at: Point;
  readonly angle: number;
}

export interface NodeSpot<Node extends TrackNode> {
  readonly node: Node;
  readonly at: Point;
}

export interface BoardLayout {
  readonly sizes: BoardSizes;
  /** Where the zoom button is. */
  readonly corner: Corner;
  readonly lines: ReadonlyMap<EdgeId, Polyline>;
  readonly chains: BlockChains;
  readonly gaps: readonly GapSpot[];
  readonly ends: readonly GapSpot[];
  readonly turnouts: readonly NodeSpot<TurnoutNode>[];
  readonly crossings: readonly NodeSpot<CrossingNode>[];
  readonly names: ReadonlyMap<string, PlacedLabel>;
  /** What later labels (of trains, of barred gaps) have to keep away from. */
  readonly ground: Ground;
}

/** Where the ends of the edges at a node are drawn, with the direction of the track there: one spot, or two for a node drawn twice. */
function spotsAt(
  railroad: Railroad,
  node: TrackNode,
  lines: ReadonlyMap<EdgeId, Polyline>,
  toPx: (point: Point) => Point,
): readonly GapSpot[] {
  const spots = new Map<string, GapSpot>();
  for (const id of railroad.edgesAt.get(node.id) ?? []) {
    const [edge, line] = [railroad.edges.get(id), lines.get(id)];
    if (edge === undefined || line === undefined) continue;
    const at = toPx(endPoint(railroad, node, edge));
    const along = edge.between[0] === node.id ? 1 : lineLength(line) - 1;
    spots.set(at.join(' '), { id: node.id, at, angle: pointAlong(line, along).angle });
  }
  return [...spots.values()];
}

/** All names of a railroad, in the order in which they are given their spots. */
function nameWishes(
  railroad: Railroad,
  chains: BlockChains,
  lines: ReadonlyMap<EdgeId, Polyline>,
  toPx: (point: Point) => Point,
  sizes: BoardSizes,
) {
  return [
    ...railroad.document.blocks.map((block) => blockWish(railroad, block, chains.get(block.id) ?? [], sizes)),
    ...railroad.document.places.flatMap((place) => placeWish(railroad, place, lines, sizes)),
    ...railroad.document.nodes.filter(isThrown).map((node) => turnoutWish(node.id, toPx(node.at), sizes)),
  ];
}

/** Room beside a name for its question mark, or the box that marks it, in parts of the letter size. */
const SPARE_LETTERS = 1.5;

/** Corners of the zone for the zoom button, the first that has no track is taken. */
const CORNERS = ['bottom right', 'top right', 'bottom left', 'top left'] as const;
export type Corner = (typeof CORNERS)[number];

/** The zoom button, 44 px and a little. */
const BUTTON_PX = 48;

function cornerBox(corner: Corner, { width, height }: Size): Box {
  const left = corner.endsWith('right') ? width - BUTTON_PX : 0;
  const top = corner.startsWith('bottom') ? height - BUTTON_PX : 0;
  return { left, top, right: left + BUTTON_PX, bottom: top + BUTTON_PX };
}

/**
 * @param zone size of the board's zone in pixels
 * @param letterPx size of desk letters in pixels
 */
export function boardLayout(
  railroad: Railroad,
  drawing: TrackDrawing,
  zone: Size,
  zoom: Sight['zoom'],
  letterPx: number,
): BoardLayout {
  const sizes = boardSizes(letterPx);
  const projection = fitted(drawing, zone, [sizes.letter * 1.5, sizes.capsule + sizes.line], zoom);
  const toPx = (point: Point): Point => projected(projection, point);
  const lines = new Map([...drawing.lines].map(([id, line]) => [id, projectedLine(projection, line)]));
  const chains = blockChains(railroad, lines);
  const nodes = railroad.document.nodes;
  const [spareX, spareY] = [(zone.width * (zoom - 1)) / 2, (zone.height * (zoom - 1)) / 2];
  const tracks = [...lines.values()];
  const corner = CORNERS.find((name) => trackUnder(cornerBox(name, zone), tracks) === 0) ?? CORNERS[0];
  const empty: Ground = {
    tracks,
    clearance: sizes.capsule / 2 + 1,
    taken: [...turnoutBoxes(nodes, toPx, sizes), ...(zoom === 1 ? [cornerBox(corner, zone)] : [])],
    within: { left: -spareX, top: -spareY, right: zone.width + spareX, bottom: zone.height + spareY },
    widthOf: (words) => wordsPx(words, letterPx) + letterPx * SPARE_LETTERS,
    height: sizes.line,
  };
  const placed = placeLabels(nameWishes(railroad, chains, lines, toPx, sizes), empty);
  return {
    sizes,
    corner,
    lines,
    chains,
    gaps: nodes.filter(({ kind }) => kind === 'gap').flatMap((node) => spotsAt(railroad, node, lines, toPx)),
    ends: nodes.filter(({ kind }) => kind === 'end').flatMap((node) => spotsAt(railroad, node, lines, toPx)),
    turnouts: nodes.flatMap((node) => (node.kind === 'turnout' ? [{ node, at: toPx(node.at) }] : [])),
    crossings: nodes.flatMap((node) => (node.kind === 'crossing' ? [{ node, at: toPx(node.at) }] : [])),
    names: new Map(placed.map((label) => [label.key, label])),
    ground: { ...empty, taken: [...empty.taken, ...placed.map(({ box }) => box)] },
  };
}

/** The marks of the turnouts take room too. */
function turnoutBoxes(nodes: readonly TrackNode[], toPx: (point: Point) => Point, sizes: BoardSizes) {
  const half = sizes.letter * 0.4;
  return nodes.filter(isThrown).map((node) => {
    const [x, y] = toPx(node.at);
    return { left: x - half, top: y - half, right: x + half, bottom: y + half };
  });
}

/** Pixels between two badges on a line. */
const BADGE_EVERY_PX = 190;

/**
 * Where a cab's badge is repeated along a block: on every chain that has room for one, and on the longest in any case.
 *
 * @returns points on the chains
 */
export function badgeSpots(chains: readonly Chain[], badgePx: number): readonly Point[] {
  const longest = Math.max(0, ...chains.map(({ line }) => lineLength(line)));
  return chains.flatMap(({ line }) => {
    const length = lineLength(line);
    if (length < longest && length < badgePx * 4) return [];
    const count = Math.max(1, Math.floor(length / BADGE_EVERY_PX));
    return Array.from({ length: count }, (_, i) => pointAlong(line, (length * (i + 0.5)) / count).at);
  });
}

/** The chains of one block; none for a block without track. */
export const chainsOf = (layout: BoardLayout, block: BlockId | null): readonly Chain[] =>
  layout.chains.get(block) ?? [];
