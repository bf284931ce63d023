/** A hand movement that is needed, for whom, and how near it is. */
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import type { Throw } from '../../shared-model/session/state.ts';

/** Why a hand has to move: a knob that stands wrong is turned back, a cab is changed, a way is lined, an overrun is guarded against. */
export type ThrowFor = 'turn-back' | 'change-cab' | 'way' | 'guard';

export interface PendingThrow {
  readonly thrown: Throw;
  readonly train: TrainId | null;
  readonly cab: ThrottleId | null;
  readonly for: ThrowFor;
  /** Blocks between the train's head and the one that the throw is for; 0 where it stands. */
  readonly blocksAhead: number;
  readonly running: boolean;
  /** Cabs whose handles the dial passes: they go to zero first, and the throw waits for nothing else. */
  readonly zeroFirst?: readonly ThrottleId[];
}

/** One name for a hand movement, to tell it from others. */
export const throwKey = ({ kind, id, to }: Throw): string => `${kind} ${id} ${to}`;
