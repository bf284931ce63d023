/** What the figures of an evening are. Times are seconds, lengths millimetres on the model. */
import type { Millimetres, Seconds } from '../units.ts';

export interface CodeCount {
  readonly code: string;
  readonly count: number;
}

/** What is counted alike for a person, a cab and a train. */
export interface RunFigures {
  readonly id: string;
  /** A person: with a cab. A cab: with a person. A train: on the track. */
  readonly seconds: Seconds;
  /** By blocks reported; running inside limits is not in it. */
  readonly distanceMm: Millimetres;
  /** Authorities granted; lengthening one is not another. */
  readonly moves: number;
  readonly handOffs: number;
  readonly waitSeconds: Seconds;
  readonly overrides: number;
  /** Orders that were refused, and the reasons given by code: an order may be refused for several. */
  readonly refusals: number;
  readonly refusalCodes: readonly CodeCount[];
  readonly alarms: number;
  readonly alarmCodes: readonly CodeCount[];
}

export interface BlockFigures {
  readonly id: string;
  readonly occupiedSeconds: Seconds;
  /** Not open: pledged, lined, occupied or disputed. */
  readonly heldSeconds: Seconds;
  /** Run inside it, by blocks reported. */
  readonly distanceMm: Millimetres;
  /** Authorities that were granted over it. */
  readonly moves: number;
  /** Agreed from it on. */
  readonly handOffs: number;
  /** Of the knob, toggle or turnouts of the block. */
  readonly throws: number;
  /** Reasons of refusals, and alarms, that were about it first. */
  readonly refusals: number;
  readonly alarms: number;
  /** Waiting that was charged to it. */
  readonly waitSeconds: Seconds;
  /** Its part of all waiting, 0 to 1. */
  readonly waitShare: number;
}

/** Waiting of a train for one thing; nulls where the ask was free, and only the dispatcher was waited for. */
export interface WaitFigures {
  readonly train: string;
  /** Who had the train, while it waited for this. */
  readonly cab: string | null;
  readonly person: string | null;
  /** The block, turnout or other thing of the first reason. */
  readonly thing: string | null;
  readonly block: string | null;
  readonly owner: string | null;
  readonly seconds: Seconds;
  /** The longest time on end: when it began, and how long it lasted. */
  readonly longest: { readonly from: Seconds; readonly seconds: Seconds };
}

/** An order that was carried out against a refusal. */
export interface OverrideFigures {
  readonly entry: number;
  readonly at: Seconds;
  readonly why: string;
  readonly train: string | null;
  readonly cab: string | null;
  readonly person: string | null;
}

export interface EveningFigures {
  readonly seconds: Seconds;
  readonly runningSeconds: Seconds;
  readonly people: readonly RunFigures[];
  readonly cabs: readonly RunFigures[];
  readonly trains: readonly RunFigures[];
  readonly blocks: readonly BlockFigures[];
  /** The longest first. */
  readonly waits: readonly WaitFigures[];
  readonly refusals: readonly CodeCount[];
  readonly alarms: readonly CodeCount[];
  readonly overrides: readonly OverrideFigures[];
  /** Throws done in each minute of the session, the first minute first. */
  readonly throwsPerMinute: readonly number[];
}
