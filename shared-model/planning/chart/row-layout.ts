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

/** Joints that are measured in all at most: some hundredths of a second. */
const MOST_WORK = 1_000_000;

/** Where an end of a block is, in rows from the top. */
const placeOf = (
  rowOf: readonly number[],
  turned: readonly boolean[],
  block: number,
  share: number,
): number => (rowOf[block] ?? 0) + (turned[block] === true ? 1 - share : share);

/** How far apart, in rows, the ends are that belong together. */
function jumps(joints: readonly Joint[], { order, turned }: Arrangement): number {
  const rowOf: number[] = [];
  order.forEach((block, row) => {
    rowOf[block] = row;
  });
  return joints.reduce(
    (sum, { from, fromShare, to, toShare, times }) =>
      sum + times * Math.abs(placeOf(rowOf, turned, from, fromShare) - placeOf(rowOf, turned, to, toShare)),
    0,
  );
}

/** Every arrangement in which a block is beside one that it is joined to, above it or below, either end up. */
function* besideOthers(
  joints: readonly Joint[],
  { order, turned }: Arrangement,
  block: number,
): Generator<Arrangement> {
  const others = order.filter((other) => other !== block);
  const joined = joints.flatMap(({ from, to }) => (from === block ? [to] : to === block ? [from] : []));
  const rows = new Set(joined.flatMap((other) => [others.indexOf(other), others.indexOf(other) + 1]));
  const over = turned.map((is, place) => (place === block ? !is : is));
  yield { order, turned: over };
  for (const row of rows) {
    const moved = [...others.slice(0, row), block, ...others.slice(row)];
    yield { order: moved, turned };
    yield { order: moved, turned: over };
  }
}

/** Every arrangement in which a stretch of rows is turned over as a whole. */
function* turnedOver({ order, turned }: Arrangement): Generator<Arrangement> {
  for (let from = 0; from < order.length; from += 1)
    for (let till = from + 2; till <= order.length; till += 1) {
      const stretch = new Set(order.slice(from, till));
      yield {
        order: [...order.slice(0, from), ...order.slice(from, till).reverse(), ...order.slice(till)],
        turned: turned.map((is, place) => (stretch.has(place) ? !is : is)),
      };
    }
}

/** Less than this is no better: shares are sums in floating point. */
const HAIR = 1e-6;

/** The first arrangement, improved block by block, then by turning stretches over, as long as that makes the jumps shorter. */
function arranged(joints: readonly Joint[], blocks: number): Arrangement {
  let best: Arrangement = {
    order: Array.from({ length: blocks }, (_, block) => block),
    turned: Array.from({ length: blocks }, () => false),
  };
  let least = jumps(joints, best);
  let work = 0;
  const take = (steps: Iterable<Arrangement>): boolean => {
    const before = least;
    for (const step of steps) {
      work += joints.length;
      if (work > MOST_WORK) break;
      const now = jumps(joints, step);
      if (now >= least - HAIR) continue;
      least = now;
      best = step;
    }
    return least < before;
  };
  const eachBlock = (): boolean =>
    best.order.map((_, block) => take(besideOthers(joints, best, block))).some((isBetter) => isBetter);
  while (eachBlock() || take(turnedOver(best)));
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
