/** The blocks along a train's way, each as the stretch that it covers. */
import type { BlockId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Millimetres } from '../../units.ts';
import type { SituationTrain } from '../situation.ts';
import type { HeadLine } from './head-line.ts';

/** Millimetres along the way, 0 where the head stood at first; below 0 is under the train. */
export interface BlockStretch {
  readonly block: BlockId;
  readonly fromMm: Millimetres;
  readonly tillMm: Millimetres;
}

/** The stretches from the tail on; a block with a gap inside is one stretch. */
export function blockStretches(
  railroad: Railroad,
  train: SituationTrain,
  line: HeadLine,
): readonly BlockStretch[] {
  const lengthOf = (edge: HeadLine['edges'][number]): Millimetres => railroad.edges.get(edge)?.length ?? 0;
  const under = train.trail.map(({ edge }) => edge).reverse();
  let at = -under.reduce((sum, edge) => sum + lengthOf(edge), 0);
  const stretches: BlockStretch[] = [];
  for (const edge of [...under, ...line.edges]) {
    const block = railroad.blockOfEdge.get(edge);
    const fromMm = at;
    at += lengthOf(edge);
    if (block === undefined) continue;
    const last = stretches.at(-1);
    if (last?.block === block && last.tillMm === fromMm)
      stretches[stretches.length - 1] = { ...last, tillMm: at };
    else stretches.push({ block, fromMm, tillMm: at });
  }
  return stretches;
}
