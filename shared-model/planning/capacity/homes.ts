/** Where a train can stand and come back to: a home is a standing from which, alone on the railroad, it can go to another block and return. */
import type { ThrottleId } from '../../ids.ts';
import type { Train } from '../../railroad/document.ts';
import { layBack } from '../../railroad/under-train.ts';
import { type Memory, partOf } from '../memory.ts';
import { type Movements, movementsOf } from '../movements.ts';
import { moverGraph } from '../safe-state/mover-graph.ts';
import type { Mover } from '../safe-state/safe-task.ts';
import { canFeed, must, type TrackTable } from '../track-table.ts';

export interface Home {
  readonly cab: ThrottleId;
  /** Head first. */
  readonly trail: readonly number[];
  readonly train: Train;
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

/**
 * The mover that is to set out from a home and come back. Trains turn back at ends of track alone. Made anew whenever it is wanted,
 * always the same, since all that trains can do from all their homes is more than can be kept.
 */
export function moverOfHome(
  table: TrackTable,
  { train, cab, trail }: Omit<Home, 'under'>,
  memory: Memory,
): Mover {
  const movements = movementsOf(table, { lengthMm: train.length, cab }, trail, 'at-ends', memory);
  return { id: train.id, movements: thereAndBack(movements), isGoal: (standing) => standing === 1 };
}

export interface HomeSearch {
  /** The cabs that are asked for. */
  readonly cabs: readonly ThrottleId[];
  /** It is given back home by home. */
  readonly memory: Memory;
  /** Asked before each home; true ends the list. */
  shouldStop(): boolean;
}

/** The homes of a train, on every one of the cabs that can feed it there. */
export function homesOf(
  table: TrackTable,
  train: Train,
  { cabs, memory, shouldStop }: HomeSearch,
): readonly Home[] {
  const { railroad } = table;
  const homes: Home[] = [];
  const seen = new Set<string>();
  table.spots.forEach((spot, number) => {
    if (table.stops[number] !== true) return;
    for (const position of ['normal', 'reverse'] as const) {
      const laid = layBack(railroad, spot, train.length, () => position);
      if (laid === undefined) continue;
      const trail = laid.map(table.spotNumber);
      const key = trail.join();
      if (seen.has(key)) continue;
      seen.add(key);
      for (const cab of cabs) {
        if (shouldStop()) return;
        if (!trail.every((under) => canFeed(table, must(table.blockOf[under]), cab))) continue;
        const part = partOf(memory);
        const { movements, isGoal } = moverOfHome(table, { train, cab, trail }, part);
        const graph = moverGraph(movements, () => false, isGoal);
        part.giveAllBack();
        // Where what it can do is too much to go through, it stays a home, that nothing is proven about.
        if (graph?.runsLeft[0] === -1) continue;
        homes.push({ train, cab, trail, under: movements.standing(0).under });
      }
    }
  });
  return homes;
}
