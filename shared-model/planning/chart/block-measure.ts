/** The track of a block measured along one line, so that each train that runs through it has its place on that line. */
import type { EdgeId, NodeId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Spot } from '../../railroad/travel.ts';
import type { Millimetres } from '../../units.ts';

/** Where a passage begins and ends on the line of its block; it falls where a train runs against the line. */
export interface Passage {
  readonly fromMm: Millimetres;
  readonly tillMm: Millimetres;
}

export interface BlockMeasure {
  readonly lengthMm: Millimetres;
  /** In the order in which they were given. */
  readonly passages: readonly Passage[];
}

/** Where an edge lies: its beginning on the line, and the node at its other end. */
interface Laid {
  readonly atMm: Millimetres;
  readonly up: NodeId;
}

/**
 * Measures a block by the passages of trains through it. The longest one is the line; another one lies along it where it shares track
 * with it, and branches off at its true distance.
 *
 * @param passages the track of each passage, in the order in which it is run over
 */
export function measureBlock(railroad: Railroad, passages: readonly (readonly Spot[])[]): BlockMeasure {
  const lengthOf = (edge: EdgeId): Millimetres => railroad.edges.get(edge)?.length ?? 0;
  const whole = (passage: readonly Spot[]): Millimetres =>
    passage.reduce((sum, { edge }) => sum + lengthOf(edge), 0);
  const laid = new Map<EdgeId, Laid>();
  const found = new Map<readonly Spot[], Passage>();
  for (const passage of [...passages].sort((one, other) => whole(other) - whole(one))) {
    const shared = passage.findIndex(({ edge }) => laid.has(edge));
    const anchor = passage[shared];
    const there = anchor === undefined ? undefined : laid.get(anchor.edge);
    const before = whole(passage.slice(0, Math.max(0, shared)));
    const isUp = there === undefined || there.up === anchor?.toward;
    const sign = isUp ? 1 : -1;
    const edgeMm = anchor === undefined ? 0 : lengthOf(anchor.edge);
    const fromMm = there === undefined ? 0 : there.atMm + (isUp ? -before : edgeMm + before);
    let at = fromMm;
    for (const { edge, toward } of passage) {
      const next = at + sign * lengthOf(edge);
      const [one, other] = railroad.edges.get(edge)?.between ?? [toward, toward];
      const behind = one === toward ? other : one;
      if (!laid.has(edge)) laid.set(edge, { atMm: Math.min(at, next), up: isUp ? toward : behind });
      at = next;
    }
    found.set(passage, { fromMm, tillMm: at });
  }
  const all = [...found.values()].flatMap(({ fromMm, tillMm }) => [fromMm, tillMm]);
  const least = Math.min(...all);
  return {
    lengthMm: Math.max(...all) - least,
    passages: passages.flatMap((passage) => {
      const one = found.get(passage);
      return one === undefined ? [] : [{ fromMm: one.fromMm - least, tillMm: one.tillMm - least }];
    }),
  };
}
