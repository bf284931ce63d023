/** Where trains and cuts are: by the reports (blocks), and by length (edges under a train). */
import type { BlockId, CutId, NodeId, ThrottleId, TrainId } from '../../ids.ts';
import type { TurnoutPosition } from '../../railroad/document.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { type Onward, onward, type Spot } from '../../railroad/travel.ts';
import { underTrain } from '../../railroad/under-train.ts';
import type { Trail, TrainNow } from '../state.ts';
import { entriesOf, type World } from '../world.ts';
import { authoritiesInForce } from './authorities.ts';

/** The blocks under a list of spots, in that order, each once. */
export function blocksUnder(railroad: Railroad, spots: Trail): readonly BlockId[] {
  const blocks = spots
    .map((spot) => railroad.blockOfEdge.get(spot.edge))
    .filter((block) => block !== undefined);
  return [...new Set(blocks)];
}

/** The spots under a train by its length, the head where it is recorded; none while that is not known. */
export function spotsUnder(
  railroad: Railroad,
  train: Pick<TrainNow, 'trail' | 'length'> & { readonly lost?: boolean },
): Trail {
  return train.lost === true ? [] : underTrain(railroad, train.trail, train.length);
}

/** What is recorded of a train that is known to stand at a place: nothing is in doubt about it. */
export const standingAt = (trail: Trail, blocks: readonly BlockId[]) => ({
  trail,
  blocks,
  lost: false,
  picked: [],
  stopped: true,
  stalled: false,
  motionUnknown: false,
});

/** The placed trains, in the order of the document and then of coming. */
export function placedTrains(world: World): readonly [TrainId, TrainNow][] {
  return entriesOf(world.state.trains as Record<TrainId, TrainNow>).filter(([, train]) => train.placed);
}

/** Trains in a block by the reports, and trains whose limits make it count as occupied. */
export function trainsIn(world: World, block: BlockId): readonly TrainId[] {
  const working = authoritiesInForce(world.state)
    .filter(({ authority }) => authority.taken.includes(block))
    .map(({ authority }) => authority.train);
  return placedTrains(world)
    .filter(([id, train]) => train.blocks.includes(block) || working.includes(id))
    .map(([id]) => id);
}

/** Cuts of cars in a block. */
export function cutsIn(world: World, block: BlockId): readonly CutId[] {
  return entriesOf(world.state.cuts as Record<CutId, { blocks: readonly BlockId[] }>)
    .filter(([, cut]) => cut.blocks.includes(block))
    .map(([id]) => id);
}

/** How the second of two spots follows from the first; undefined when it does not. */
export function passageBetween(railroad: Railroad, from: Spot, to: Spot): Onward | undefined {
  return onward(railroad, from).find((next) => next.edge === to.edge && next.toward === to.toward);
}

/** The nodes a train (or cut) lies over, each with the setting its way needs there. `spots` head first. */
export function nodesUnder(
  railroad: Railroad,
  spots: Trail,
): readonly {
  readonly node: NodeId;
  readonly setting: TurnoutPosition | undefined;
  readonly ahead: Spot;
  readonly behind: Spot;
}[] {
  return spots.slice(1).flatMap((behind, index) => {
    const ahead = spots[index];
    const passage = ahead === undefined ? undefined : passageBetween(railroad, behind, ahead);
    return ahead === undefined || passage === undefined
      ? []
      : [{ node: passage.through, setting: passage.setting, ahead, behind }];
  });
}

/** The gaps between two blocks, in the file's order (an insulated crossing parts blocks too, but no train can stop there). */
export function gapsBetween(railroad: Railroad, a: BlockId, b: BlockId): readonly NodeId[] {
  return railroad.document.nodes
    .filter((node) => {
      if (node.kind !== 'gap') return false;
      const sides = (railroad.edgesAt.get(node.id) ?? []).map((edge) => railroad.blockOfEdge.get(edge));
      return (sides[0] === a && sides[1] === b) || (sides[0] === b && sides[1] === a);
    })
    .map((node) => node.id);
}

/** A gap that a train stands across by the reports: it is in the blocks of both sides. */
export interface Across {
  readonly gap: NodeId;
  /** Toward the head. */
  readonly ahead: BlockId;
  readonly behind: BlockId;
}

/**
 * The gaps a train stands across: those of its way between blocks that it is in on both sides; for a block that its way does not touch
 * (settled as its, or the cars came later) the first gap in the file's order that joins it with another of its blocks, the head's first.
 */
export function gapsAcross(railroad: Railroad, train: TrainNow): readonly Across[] {
  const onItsWay = nodesUnder(railroad, train.trail).flatMap(({ node, ahead, behind }): Across[] => {
    const here = railroad.blockOfEdge.get(ahead.edge);
    const there = railroad.blockOfEdge.get(behind.edge);
    if (here === undefined || there === undefined || here === there) return [];
    return train.blocks.includes(here) && train.blocks.includes(there)
      ? [{ gap: node, ahead: here, behind: there }]
      : [];
  });
  const touched = blocksUnder(railroad, train.trail);
  const others = train.blocks
    .filter((behind) => !touched.includes(behind))
    .flatMap((behind) =>
      train.blocks
        .flatMap((ahead): Across[] => {
          const gap = gapsBetween(railroad, ahead, behind)[0];
          return gap === undefined ? [] : [{ gap, ahead, behind }];
        })
        .slice(0, 1),
    );
  return [...onItsWay, ...others].filter(
    (across, index, all) => all.findIndex((other) => other.gap === across.gap) === index,
  );
}

/** The cab that a block belongs on for a train that stands in it: as it was given the block, else the train's own. */
export function cabUnder({ state }: World, train: TrainId, block: BlockId): ThrottleId | null {
  const now = state.blocks[block];
  return (now?.train === train ? now.cab : null) ?? state.trains[train]?.cab ?? null;
}

/** The trail cut to what still matters: the spots under the train, and those back to the last block it is in. */
export function trimmedTrail(railroad: Railroad, train: TrainNow): Trail {
  const under = spotsUnder(railroad, train).length;
  const lastIn = train.trail.findLastIndex((spot) => {
    const block = railroad.blockOfEdge.get(spot.edge);
    return block !== undefined && train.blocks.includes(block);
  });
  return train.trail.slice(0, Math.max(under, lastIn + 1));
}
