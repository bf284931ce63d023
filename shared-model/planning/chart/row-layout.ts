/**
 * The blocks of a plan laid out along the distance axis of its chart: which block has which row, how long it is, which of its ends is
 * on top, and where in its row each stay begins and ends. The order is one in which the lines of the heads go on from row to row as
 * far as the ways of the trains let them: a plain arrangement on a line, improved step by step until no step shortens the jumps.
 */
import type { BlockId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Millimetres } from '../../units.ts';
import type { BlockTime } from '../timing.ts';
import { measureBlock } from './block-measure.ts';
import { rowsAlongTheWays } from './row-order.ts';

export interface RowLayout {
  readonly rows: readonly BlockId[];
  /** Track of each row that is run over, or stood on. */
  readonly lengthsMm: readonly Millimetres[];
  /** How far down its row, from 0 to 1, each stay begins and ends. */
  readonly through: ReadonlyMap<BlockTime, readonly [from: number, till: number]>;
}

/** One block follows another on a way: from so far through the one to so far through the other, so many times. */
interface Joint {
  readonly from: number;
  readonly fromShare: number;
  readonly to: number;
  readonly toShare: number;
  readonly times: number;
}

/** The blocks from top to bottom, and those that are turned. */
interface Arrangement {
  readonly order: readonly number[];
  readonly turned: readonly boolean[];
}

/** Steps that are weighed, times joints: some hundredths of a second. */
const MOST_WORK = 2_000_000;

/** How far apart, in rows, the ends are that belong together. */
function jumps(joints: readonly Joint[], { order, turned }: Arrangement): number {
  const rowOf: number[] = [];
  order.forEach((block, row) => {
    rowOf[block] = row;
  });
  const y = (block: number, share: number): number =>
    (rowOf[block] ?? 0) + (turned[block] === true ? 1 - share : share);
  return joints.reduce(
    (sum, { from, fromShare, to, toShare, times }) =>
      sum + times * Math.abs(y(from, fromShare) - y(to, toShare)),
    0,
  );
}

/** Every arrangement that is one step away: a block put elsewhere, either end up, or a stretch of rows turned over as a whole. */
function* stepsFrom({ order, turned }: Arrangement): Generator<Arrangement> {
  for (const block of order) {
    const others = order.filter((other) => other !== block);
    for (let row = 0; row <= others.length; row += 1) {
      const moved = [...others.slice(0, row), block, ...others.slice(row)];
      yield { order: moved, turned };
      yield { order: moved, turned: turned.map((is, place) => (place === block ? !is : is)) };
    }
  }
  for (let from = 0; from < order.length; from += 1)
    for (let till = from + 2; till <= order.length; till += 1) {
      const stretch = order.slice(from, till);
      yield {
        order: [...order.slice(0, from), ...stretch.reverse(), ...order.slice(till)],
        turned: turned.map((is, place) => (stretch.includes(place) ? !is : is)),
      };
    }
}

/** Less than this is no better: shares are sums in floating point. */
const HAIR = 1e-6;

function arranged(joints: readonly Joint[], blocks: number): Arrangement {
  let best: Arrangement = {
    order: Array.from({ length: blocks }, (_, block) => block),
    turned: Array.from({ length: blocks }, () => false),
  };
  let least = jumps(joints, best);
  let work = 0;
  const better = (): Arrangement | undefined => {
    let found: Arrangement | undefined;
    for (const step of stepsFrom(best)) {
      work += joints.length + blocks;
      if (work > MOST_WORK) return found;
      const now = jumps(joints, step);
      if (now >= least - HAIR) continue;
      least = now;
      found = step;
    }
    return found;
  };
  for (let step = better(); step !== undefined; step = better()) best = step;
  return best;
}

/** @param ways the stays of each train, in the order of its way */
export function rowLayout(railroad: Railroad, ways: readonly (readonly BlockTime[])[]): RowLayout {
  const blocks = rowsAlongTheWays(ways.map((way) => way.map(({ block }) => block)));
  const numberOf = new Map(blocks.map((block, number) => [block, number]));
  const shares = new Map<BlockTime, readonly [number, number]>();
  const lengths = blocks.map((block) => {
    const stays = ways.flat().filter((stay) => stay.block === block);
    const { lengthMm, passages } = measureBlock(
      railroad,
      stays.map(({ over }) => over),
    );
    stays.forEach((stay, place) => {
      const { fromMm = 0, tillMm = 0 } = passages[place] ?? { fromMm: 0, tillMm: 0 };
      const whole = Math.max(1, lengthMm);
      shares.set(stay, [fromMm / whole, tillMm / whole]);
    });
    return lengthMm;
  });
  const joints = new Map<string, Joint>();
  for (const way of ways)
    way.slice(1).forEach((stay, index) => {
      const before = way[index];
      const from = before === undefined ? undefined : numberOf.get(before.block);
      const to = numberOf.get(stay.block);
      if (before === undefined || from === undefined || to === undefined) return;
      const [fromShare, toShare] = [shares.get(before)?.[1] ?? 1, shares.get(stay)?.[0] ?? 0];
      const key = `${from} ${fromShare} ${to} ${toShare}`;
      joints.set(key, { from, fromShare, to, toShare, times: (joints.get(key)?.times ?? 0) + 1 });
    });
  const { order, turned } = arranged([...joints.values()], blocks.length);
  const isTurned = new Set(blocks.filter((_, number) => turned[number]));
  return {
    rows: order.flatMap((number) => blocks[number] ?? []),
    lengthsMm: order.map((number) => lengths[number] ?? 0),
    through: new Map(
      [...shares].map(([stay, [from, till]]) => [
        stay,
        isTurned.has(stay.block) ? [1 - from, 1 - till] : [from, till],
      ]),
    ),
  };
}
