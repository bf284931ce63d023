/** Where the head of a train is when, along its own way. */
import type { EdgeId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { type Millimetres, modelSpeed, type Seconds } from '../../units.ts';
import type { PlanOptions } from '../plan/options.ts';
import type { PlanMove } from '../plan-answer.ts';
import type { SituationTrain } from '../situation.ts';

/** A corner of the line: the head is `mm` past where it stood at first. Between two corners it goes at one speed, or stands. */
export interface LinePoint {
  readonly at: Seconds;
  readonly mm: Millimetres;
}

export interface HeadLine {
  readonly train: TrainId;
  /** In the order of time; the first is where it stands at 0. */
  readonly points: readonly LinePoint[];
  /** The edges entered, in order. */
  readonly edges: readonly EdgeId[];
}

/** Two moves that touch to this are one; what plans are compared to. */
const TOUCH: Seconds = 0.002;

/** The line of a train through its moves. */
export function headLine(
  railroad: Railroad,
  train: SituationTrain,
  moves: readonly PlanMove[],
  { startSeconds }: PlanOptions,
): HeadLine {
  const speed = modelSpeed(train.mph, railroad.document.scaleRatio);
  const own = moves.filter((move) => move.train === train.id).sort((one, other) => one.start - other.start);
  const points: LinePoint[] = [{ at: 0, mm: 0 }];
  let mm = 0;
  let before = Number.NEGATIVE_INFINITY;
  for (const move of own) {
    const departs = move.start + (move.start <= before + TOUCH ? 0 : startSeconds);
    points.push({ at: departs, mm });
    mm += move.edges.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);
    before = departs + (mm - (points.at(-1)?.mm ?? 0)) / speed;
    points.push({ at: before, mm });
  }
  return { train: train.id, points, edges: own.flatMap(({ edges }) => edges) };
}

/** Lengths are sums in floating point; this much is nothing. */
const HAIR_MM = 1e-6;

function between(before: LinePoint, after: LinePoint, mm: Millimetres): Seconds {
  const share = (mm - before.mm) / (after.mm - before.mm);
  return before.at + Math.min(1, Math.max(0, share)) * (after.at - before.at);
}

/** When the head comes so far, and a tail that is so much behind it is at a gap and clear; null where it never does. */
export function comesTo({ points }: HeadLine, mm: Millimetres): Seconds | null {
  const place = points.findIndex((point) => point.mm >= mm - HAIR_MM);
  const [before, after] = [points[place - 1], points[place]];
  if (after === undefined) return null;
  return before === undefined || after.mm <= before.mm ? after.at : between(before, after, mm);
}

/** When the head goes on from so far, over the gap at which it may have stood; null where it never does. */
export function goesOnFrom({ points }: HeadLine, mm: Millimetres): Seconds | null {
  const place = points.findIndex((point) => point.mm > mm + HAIR_MM);
  const [before, after] = [points[place - 1], points[place]];
  return before === undefined || after === undefined ? null : between(before, after, mm);
}
