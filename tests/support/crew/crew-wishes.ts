/** What a crew does and how: how late, how slow, how long it takes for words and throws; and what comes of it. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { HowFar } from '../../../shared-model/planning/carry-out/how-far.ts';
import type { PlanMove, PlanThrow } from '../../../shared-model/planning/plan-answer.ts';
import type { Evening } from '../../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import type { AheadThrow } from './hold-back.ts';

/** What is drawn anew each time; where it is left out, all goes as planned. */
export interface CrewDelays {
  /** Seconds by which a start from a stand is late. */
  readonly lateBy: (train: TrainId) => number;
  /** The share of its planned speed that a train keeps after a start. */
  readonly pace?: (train: TrainId) => number;
  /** Seconds of the words before a start, with the read-back. */
  readonly talks?: () => number;
  /** Seconds of a throw. */
  readonly throwsFor?: () => number;
}

export interface CrewWishes extends CrewDelays {
  /** An order is given so long before its time in the plan, where it is its turn by then. */
  readonly aheadSeconds: number;
  /** The planned start of the move that an order (by its place) belongs to; nobody sets out before it. */
  readonly plannedStart: (order: number) => number;
  /** The plan's throws, each for a stay, in the order of the hands: done ahead of the orders where nothing stands in their way. */
  readonly throwsAhead: readonly AheadThrow[];
  /** No order is given any more from then on. */
  readonly until?: number;
}

/** Words to a train, with their read-back. */
export interface Words {
  readonly train: TrainId;
  readonly at: number;
  readonly till: number;
}

export interface DoneThrow extends PlanThrow {
  readonly till: number;
}

export interface Carried {
  /** What was done, written as a plan. */
  readonly moves: readonly PlanMove[];
  readonly throws: readonly DoneThrow[];
  readonly total: number;
  readonly events: readonly SessionEvent[];
  /** The words before each start, in order. */
  readonly words: readonly Words[];
  /** Places of the orders in the order in which they were given. */
  readonly given: readonly number[];
  readonly far: HowFar;
  /** Whether nobody ran more slowly than planned, or threw more slowly: it may be held against the rules of plans then. */
  readonly keptTimes: boolean;
  readonly begun: Evening;
  readonly evening: Evening;
}
