/** A witness replayed by the movers' own runs, before anything is called safe by it. */
import { must } from '../track-table.ts';
import type { SafeRun } from './prioritized.ts';
import type { SafeTask } from './safe-task.ts';

/** Whether every run finds what it wants free of other trains, one run after the other, and all are there at last. */
export function isWitness({ movers, obstacles, table }: SafeTask, runs: readonly SafeRun[]): boolean {
  const owner = new Int32Array(table.resources).fill(-1);
  const claim = (resources: readonly number[], by: number): void => {
    for (const resource of resources) owner[resource] = by;
  };
  for (const { resources } of obstacles) claim(resources, movers.length);
  const at = movers.map(() => 0);
  const under = (mover: number): readonly number[] =>
    must(movers[mover]).movements.standing(must(at[mover])).under;
  movers.forEach((_, mover) => {
    claim(under(mover), mover);
  });
  for (const { mover, movement } of runs) {
    const isBarred = movement.wants.some((resource) => owner[resource] !== -1 && owner[resource] !== mover);
    if (movement.from !== at[mover] || isBarred) return false;
    claim(under(mover), -1);
    at[mover] = movement.to;
    claim(under(mover), mover);
  }
  return movers.every(({ isGoal }, mover) => isGoal(must(at[mover])));
}
