/** A start dragged to another time: the move goes there with the later moves of its train and what the hands do for them. Nothing is judged here. */
import type { TrainId } from '../../ids.ts';
import type { Seconds } from '../../units.ts';
import type { PlanAnswer } from '../plan-answer.ts';
import type { PlanTiming } from '../timing.ts';

type Dragged = Pick<PlanAnswer, 'moves' | 'throws' | 'total'>;

/** To a tenth of a millisecond, as plans are given. */
const rounded = (seconds: Seconds): Seconds => Math.round(seconds * 10_000) / 10_000;

/** Sum of the arrival times: the end of each train's last move. */
export function totalOf(moves: PlanAnswer['moves']): Seconds {
  const last = new Map<TrainId, Seconds>();
  for (const { train, end } of moves) last.set(train, Math.max(last.get(train) ?? 0, end));
  return rounded([...last.values()].reduce((sum, end) => sum + end, 0));
}

/**
 * Drags the start of a move.
 *
 * @param index the place of the move in the plan's list
 * @param start where to, in seconds; not before 0
 * @param timing the times of the plan before
 */
export function draggedStart(plan: Dragged, index: number, start: Seconds, timing: PlanTiming): Dragged {
  const move = plan.moves[index];
  if (move === undefined) return plan;
  const by = Math.max(0, start) - move.start;
  const goes = (other: PlanAnswer['moves'][number]): boolean =>
    other.train === move.train && other.start >= move.start;
  const moves = plan.moves.map((other) =>
    goes(other) ? { ...other, start: rounded(other.start + by), end: rounded(other.end + by) } : other,
  );
  const carried = new Set(
    timing.blocks
      .filter(({ train, headIn }) => train === move.train && (headIn ?? -1) >= move.start)
      .flatMap(({ throws }) => throws),
  );
  const throws = plan.throws.map((thrown, place) =>
    carried.has(place) ? { ...thrown, at: rounded(Math.max(0, thrown.at + by)) } : thrown,
  );
  return { moves, throws, total: totalOf(moves) };
}
