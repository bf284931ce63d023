/** What a plan asks of throttles, selector contacts and supplies at its worst moments. */
import { type Peak, peakLoads } from '../power/peak-load.ts';
import { feedOf } from '../railroad/feed.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { PlanAnswer, PlanMove } from './plan-answer.ts';
import type { Situation } from './situation.ts';

/**
 * The loads of a plan, each at its worst moment, in seconds from the situation.
 *
 * A train draws its amperes for as long as its move lasts, and through the contacts of the blocks that it starts from and all that it enters
 * in that time, which is the most that can be. Loads change only when a move starts or ends, so the starts are the moments that count.
 */
export function planPeaks(
  railroad: Railroad,
  situation: Situation,
  { moves }: Pick<PlanAnswer, 'moves'>,
): readonly Peak[] {
  const drawOf = (move: PlanMove) => {
    const train = situation.trains.find(({ id }) => id === move.train);
    if (train === undefined) return [];
    const before = moves.filter((other) => other.train === move.train && other.end <= move.start).at(-1);
    const blocks = [...(before?.blocks.slice(-1) ?? train.blocks), ...move.blocks];
    const selectors = new Set(blocks.flatMap((block) => feedOf(railroad, block)?.selector ?? []));
    const amps = railroad.trains.get(train.id)?.amps ?? 0;
    return [{ train: train.id, amps, throttle: train.cab, selectors: [...selectors] }];
  };
  const moments = moves.map(({ start }) => ({
    at: start,
    draws: moves.filter((move) => move.start <= start && start < move.end).flatMap(drawOf),
  }));
  return peakLoads(railroad, moments);
}
