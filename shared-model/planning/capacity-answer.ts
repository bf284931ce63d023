/** What `capacity` answers: how many trains can keep moving, what stops one more, and what would help most. */
import type { BlockId, TrainId } from '../ids.ts';
import type { Millimetres, Seconds } from '../units.ts';

/** What holds the number of moving trains down. */
export type CapacityLimit = 'track' | 'hands' | 'amps' | 'cabs';

export interface CapacityBound {
  readonly limit: CapacityLimit;
  /** How many trains it allows. */
  readonly trains: number;
  /** Whether one more was shown to be impossible; false: none was found within the effort. */
  readonly proven: boolean;
  /** The blocks, supplies or throttles that hold the number down. */
  readonly about: readonly string[];
  readonly says: string;
}

/** How much of the time each block is taken when the round is pressed together: an estimate. */
export interface BlockOccupancy {
  readonly block: BlockId;
  /** From 0 to 1, of the compressed round. */
  readonly share: number;
}

/** One way of keeping that many trains moving: every train sets out and comes back to where it stood, again and again. */
export interface Round {
  readonly trains: readonly {
    readonly train: TrainId;
    readonly cab: string;
    readonly edge: string;
    readonly toward: string;
    readonly lengthMm: Millimetres;
  }[];
  /** In order, one run each. */
  readonly runs: readonly { readonly train: TrainId; readonly to: BlockId }[];
  /** Of one round, pressed together as far as the blocks and the hands allow. */
  readonly seconds: Seconds;
  readonly throws: number;
  readonly throwsPerMinute: number;
  /** Of the whole round: by the method of UIC Code 406 (compression), labelled an estimate. */
  readonly occupancy: readonly BlockOccupancy[];
}

/** Something that could be built, and what it would bring. */
export interface Help {
  readonly kind: 'selector' | 'gap' | 'siding';
  /** The block that would get a selector or be cut in two, or beside which the siding would lie. */
  readonly block: BlockId;
  /** Trains that could keep moving then, by the track and the wiring alone. */
  readonly trains: number;
  /** Ways of one train, alone on the railroad, from a block to another on some cab: how many there would be more. */
  readonly moreWays: number;
  readonly says: string;
}

export interface CapacityAnswer {
  /** The least of the bounds. */
  readonly trains: number;
  /** Every bound, the one that stops one more first. */
  readonly bounds: readonly CapacityBound[];
  /** Null where not even one train can keep moving. */
  readonly round: Round | null;
  /** The best first; those that bring nothing are left out. */
  readonly helps: readonly Help[];
  /** The occupancy, and the bounds that are not proven, are estimates. */
  readonly estimate: true;
}
