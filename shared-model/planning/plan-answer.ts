/** What `plan` answers, shaped as the command line prints it. Times are seconds from the situation. */
import type { BlockId, EdgeId, NodeId, SelectorId, ToggleId, TrainId } from '../ids.ts';
import type { Seconds } from '../units.ts';

/** One or more runs of a train without a stop. */
export interface PlanMove {
  readonly train: TrainId;
  /** Those entered, one for each gap crossed. */
  readonly blocks: readonly BlockId[];
  readonly start: Seconds;
  readonly end: Seconds;
  /** Those entered. */
  readonly edges: readonly EdgeId[];
}

/** A train, and the block that it must have left. */
export interface LeftBlock {
  readonly train: TrainId;
  readonly block: BlockId;
}

export interface PlanThrow {
  readonly at: Seconds;
  readonly kind: 'selector' | 'turnout' | 'toggle';
  readonly id: SelectorId | NodeId | ToggleId;
  readonly to: string | boolean;
  /** So that a person goes by events and not by the clock. */
  readonly waitsFor: readonly LeftBlock[];
}

export interface PlanAnswer {
  readonly verdict: 'planned' | 'impossible' | 'undecided';
  /** By start. */
  readonly moves: readonly PlanMove[];
  /** In the order of the hands. */
  readonly throws: readonly PlanThrow[];
  /** Sum of the arrival times; null where nothing is planned. */
  readonly total: Seconds | null;
  /** The same with every train alone on the railroad and nothing to throw. */
  readonly lowerBound: Seconds | null;
  /** No smaller total exists. */
  readonly proven: boolean;
}
