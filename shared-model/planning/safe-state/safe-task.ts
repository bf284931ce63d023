/** What is to be decided: trains that move, what is in their way, the track. */
import type { Memory } from '../memory.ts';
import type { Movements } from '../movements.ts';
import type { TrackTable } from '../track-table.ts';

export interface Mover {
  readonly id: string;
  readonly movements: Movements;
  /** Whether a standing of its movements is where it is to end up. */
  isGoal(standing: number): boolean;
}

/** What does not move: a parked train, a cut of cars, a train whose place is unknown. */
export interface Obstacle {
  readonly id: string;
  readonly resources: readonly number[];
}

export interface SafeTask {
  readonly table: TrackTable;
  readonly movers: readonly Mover[];
  readonly obstacles: readonly Obstacle[];
  /** What the search may have of it; what the movements have was taken from the same. */
  readonly memory: Memory;
}
