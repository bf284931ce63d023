/** The blocks and turnouts of a board as stops of its keyboard: where each is, and which the track joins. */
import type { NodeId } from '../../shared-model/ids.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { isThrown } from '../../shared-model/railroad/travel.ts';
import { REACH_PX } from './block-paths.ts';
import { type BoardLayout, chainsOf } from './board-layout.ts';
import { distance, distanceToLine, lineLength, type Point, pointAlong } from './polyline.ts';
import type { Stop } from './walk.ts';

/** The middle of a block's longest chain. */
export function blockMiddle(layout: BoardLayout, block: Parameters<typeof chainsOf>[1]): Point | undefined {
  const lines = chainsOf(layout, block).map(({ line }) => line);
  const longest = lines.toSorted((a, b) => lineLength(b) - lineLength(a))[0];
  return longest === undefined ? undefined : pointAlong(longest, lineLength(longest) / 2).at;
}

/** The blocks that touch a node. */
const blocksAt = (railroad: Railroad, node: NodeId): readonly string[] =>
  (railroad.edgesAt.get(node) ?? []).flatMap((edge) => railroad.blockOfEdge.get(edge) ?? []);

/** @returns the stops from left to right */
export function boardStops(railroad: Railroad, layout: BoardLayout): readonly Stop[] {
  const joined = new Map<string, Set<string>>();
  const join = (ids: readonly string[]) => {
    for (const one of ids)
      for (const other of ids) if (one !== other) joined.set(one, (joined.get(one) ?? new Set()).add(other));
  };
  for (const node of railroad.document.nodes) {
    if (node.kind === 'gap') join(blocksAt(railroad, node.id));
    if (isThrown(node)) join([node.id, ...blocksAt(railroad, node.id)]);
  }
  const stopAt = (id: string, at: Point | undefined): readonly Stop[] =>
    at === undefined ? [] : [{ id, at, joined: joined.get(id) ?? new Set() }];
  return [
    ...railroad.document.blocks.flatMap(({ id }) => stopAt(id, blockMiddle(layout, id))),
    ...[...layout.turnouts, ...layout.crossings]
      .filter(({ node }) => isThrown(node))
      .flatMap(({ node, at }) => stopAt(node.id, at)),
  ].toSorted((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

/** A turnout is pressed rather than the track round it when the pointer is this near, in pixels. */
const TURNOUT_PX = 16;

/**
 * What is pressed at a point: a turnout close by, else the nearest track; bands that can be pressed overlap where tracks lie close.
 *
 * @param at in pixels of the drawing, before it is panned
 */
export function thingAt(railroad: Railroad, layout: BoardLayout, at: Point): string | undefined {
  const turnout = [...layout.turnouts, ...layout.crossings]
    .filter(({ node }) => isThrown(node))
    .map(({ node, at: spot }) => ({ id: node.id, far: distance(at, spot) }))
    .toSorted((a, b) => a.far - b.far)[0];
  if (turnout !== undefined && turnout.far <= TURNOUT_PX) return turnout.id;
  const block = railroad.document.blocks
    .flatMap(({ id }) => chainsOf(layout, id).map(({ line }) => ({ id, far: distanceToLine(at, line) })))
    .toSorted((a, b) => a.far - b.far)[0];
  return block !== undefined && block.far <= REACH_PX ? block.id : undefined;
}
