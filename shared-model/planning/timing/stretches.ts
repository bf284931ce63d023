/** The blocks along a train's way, each as the stretch that it covers. */
import type { BlockId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Spot } from '../../railroad/travel.ts';
import type { Millimetres } from '../../units.ts';
import type { SituationTrain } from '../situation.ts';
import type { HeadLine } from './head-line.ts';

/** Millimetres along the way, 0 where the head stood at first; below 0 is under the train. */
export interface BlockStretch {
  readonly block: BlockId;
  readonly fromMm: Millimetres;
  readonly tillMm: Millimetres;
  /** Its track, in the order of the way, each edge with the node at which it is left. */
  readonly over: readonly Spot[];
}

/** The way of a train from its tail on. In a bad plan it may break off: it goes on from an end of the next edge then. */
function wayOf(railroad: Railroad, train: SituationTrain, line: HeadLine): readonly Spot[] {
  const way = [...train.trail].reverse();
  for (const edge of line.edges) {
    const between = railroad.edges.get(edge)?.between;
    if (between === undefined) continue;
    const [one, other] = between;
    way.push({ edge, toward: one === way.at(-1)?.toward ? other : one });
  }
  return way;
}

/** The stretches from the tail on; a block with a gap inside is one stretch. */
export function blockStretches(
  railroad: Railroad,
  train: SituationTrain,
  line: HeadLine,
): readonly BlockStretch[] {
  const lengthOf = (edge: HeadLine['edges'][number]): Millimetres => railroad.edges.get(edge)?.length ?? 0;
  let at = -train.trail.reduce((sum, { edge }) => sum + lengthOf(edge), 0);
  const stretches: BlockStretch[] = [];
  for (const spot of wayOf(railroad, train, line)) {
    const block = railroad.blockOfEdge.get(spot.edge);
    const fromMm = at;
    at += lengthOf(spot.edge);
    if (block === undefined) continue;
    const last = stretches.at(-1);
    if (last?.block === block && last.tillMm === fromMm)
      stretches[stretches.length - 1] = { ...last, tillMm: at, over: [...last.over, spot] };
    else stretches.push({ block, fromMm, tillMm: at, over: [spot] });
  }
  return stretches;
}
