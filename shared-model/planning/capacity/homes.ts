/** Where a train can stand and come back to: a home is a standing from which, alone on the railroad, it can go to another block and return. */
import type { ThrottleId } from '../../ids.ts';
import type { Train } from '../../railroad/document.ts';
import { layBack } from '../../railroad/under-train.ts';
import { type Movements, movementsOf } from '../movements.ts';
import { moverGraph } from '../safe-state/mover-graph.ts';
import type { Mover } from '../safe-state/safe-task.ts';
import { canFeed, must, type TrackTable } from '../track-table.ts';

export interface Home {
  readonly cab: ThrottleId;
  /** Head first. */
  readonly trail: readonly number[];
  /** The mover that is to set out and come back. */
  readonly mover: Mover;
  /** The resources under it. */
  readonly under: readonly number[];
}

/**
 * The movements of a train twice over: standing 2 s + 1 is standing s after it has been in another block than the one it set out
 * from. So "there and back" is an end like any other: the first standing, in its second form.
 */
function thereAndBack(movements: Movements): Movements {
  const start = movements.standing(0).block;
  return {
    ...movements,
    standing: (number) => movements.standing(number >> 1),
    runs: (number) =>
      movements.runs(number >> 1).map((run) => ({
        ...run,
        from: number,
        to: run.to * 2 + (number % 2 === 1 || run.end.block !== start ? 1 : 0),
      })),
    count: () => movements.count() * 2,
  };
}

/** The homes of a train, on every cab that can feed it there. Trains turn back at ends of track alone. */
export function homesOf(table: TrackTable, train: Train, id: string): readonly Home[] {
  const { railroad } = table;
  const homes: Home[] = [];
  const seen = new Set<string>();
  const throttles = railroad.document.throttles.map((throttle) => throttle.id);
  table.spots.forEach((spot, number) => {
    if (table.stops[number] !== true) return;
    for (const position of ['normal', 'reverse'] as const) {
      const laid = layBack(railroad, spot, train.length, () => position);
      if (laid === undefined) continue;
      const trail = laid.map(table.spotNumber);
      const key = trail.join();
      if (seen.has(key)) continue;
      seen.add(key);
      for (const cab of throttles) {
        if (!trail.every((under) => canFeed(table, must(table.blockOf[under]), cab))) continue;
        const movements = thereAndBack(movementsOf(table, { lengthMm: train.length, cab }, trail, 'at-ends'));
        const isGoal = (standing: number): boolean => standing === 1;
        const graph = moverGraph(movements, () => false, isGoal);
        if (graph === null || graph.runsLeft[0] === -1) continue;
        homes.push({ cab, trail, mover: { id, movements, isGoal }, under: movements.standing(0).under });
      }
    }
  });
  return homes;
}
