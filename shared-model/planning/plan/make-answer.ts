/** From an order of runs with its times to the answer: moves without a stop, throws in the order of the hands, what each waits for. */
import type { BlockId, TrainId } from '../../ids.ts';
import type { Seconds } from '../../units.ts';
import type { LeftBlock, PlanAnswer, PlanMove, PlanThrow } from '../plan-answer.ts';
import { must } from '../track-table.ts';
import type { TimedOrder } from './first-plan.ts';
import type { PlanTask } from './plan-task.ts';
import { INSTANT } from './slots.ts';

/** Times are given to a tenth of a millisecond, a twentieth of what they are compared to. */
const rounded = (seconds: Seconds): Seconds => Math.round(seconds * 10_000) / 10_000;

function movesOf(task: PlanTask, { order, timetable }: TimedOrder): PlanMove[] {
  const { table, options } = task;
  const moves: {
    train: TrainId;
    blocks: BlockId[];
    start: Seconds;
    end: Seconds;
    edges: PlanMove['edges'][number][];
  }[] = [];
  const last = new Map<number, (typeof moves)[number]>();
  order.forEach((run, place) => {
    const departs = timetable.departs[place] as number;
    let move = last.get(run.mover);
    if (move === undefined || departs > move.end + INSTANT * 10) {
      move = {
        train: must(task.movers[run.mover]).id as TrainId,
        blocks: [],
        start: departs - options.startSeconds,
        end: departs,
        edges: [],
      };
      moves.push(move);
      last.set(run.mover, move);
    }
    move.end = departs + run.seconds;
    move.blocks.push(...run.movement.blocks.map((block) => must(table.blocks[block])));
    move.edges.push(...run.movement.spots.map((spot) => must(table.spots[spot]).edge));
  });
  return moves
    .map((move): PlanMove => ({ ...move, start: rounded(move.start), end: rounded(move.end) }))
    .sort((one, other) => one.start - other.start);
}

/** Who left each resource last before each throw, by the order of the runs. */
function throwsOf(task: PlanTask, { order, timetable }: TimedOrder): PlanThrow[] {
  const { table } = task;
  const left = new Map<number, number>();
  const waits = new Map<number, LeftBlock[]>();
  const byRun = new Map<number, number[]>();
  for (const [index, one] of timetable.throws.entries())
    byRun.set(one.run, [...(byRun.get(one.run) ?? []), index]);
  order.forEach((run, place) => {
    for (const index of byRun.get(place) ?? []) {
      const found = must(timetable.throws[index]).over.flatMap((block): LeftBlock[] => {
        const mover = left.get(block);
        return mover === undefined
          ? []
          : [{ train: must(task.movers[mover]).id as TrainId, block: must(table.blocks[block]) }];
      });
      waits.set(index, found);
    }
    for (const { resource } of run.clears) left.set(resource, run.mover);
  });
  return timetable.throws
    .map((one, index): PlanThrow => {
      const { kind, id } = must(task.knobs.knobs[one.knob]);
      return {
        at: rounded(one.at),
        kind,
        id,
        to: task.knobs.word(one.knob, one.value),
        waitsFor: waits.get(index) ?? [],
      };
    })
    .sort((one, other) => one.at - other.at);
}

/** The answer for a plan that was found. */
export function plannedAnswer(
  task: PlanTask,
  found: TimedOrder,
  lowerBound: Seconds,
  proven: boolean,
): PlanAnswer {
  return {
    verdict: 'planned',
    moves: movesOf(task, found),
    throws: throwsOf(task, found),
    total: rounded(found.timetable.total),
    lowerBound: rounded(lowerBound),
    proven,
  };
}
