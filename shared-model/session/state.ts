/**
 * The folded state of an evening: plain data, whole, serialisable as canonical JSON.
 * Static things (track, wiring) are not in it; they are in the railroad that goes with it.
 */
import type {
  AuthorityId,
  BlockId,
  CutId,
  NodeId,
  SelectorId,
  SupplyId,
  ThrottleId,
  ToggleId,
  TrainId,
} from '../ids.ts';
import type { TurnoutPosition } from '../railroad/document.ts';
import type { Spot } from '../railroad/travel.ts';
import type { AlarmCode, Refusal } from '../refusal.ts';
import type { InputOf } from './input.ts';

export const SESSION_PHASES = ['before', 'making-up', 'running', 'stopped', 'ended'] as const;
export type SessionPhase = (typeof SESSION_PHASES)[number];

export const BLOCK_STATES = ['open', 'pledged', 'lined', 'occupied', 'disputed'] as const;
export type BlockStateName = (typeof BLOCK_STATES)[number];

/** A block now. Of a disputed block, cab and train are the owner's before (or null). `train` may be a cut of cars. */
export interface BlockNow {
  readonly state: BlockStateName;
  readonly cab: ThrottleId | null;
  readonly train: TrainId | CutId | null;
}

/** A cab: a throttle with the person who has it tonight. Times are seconds since the session opened. */
export interface CabNow {
  readonly person: string | null;
  /** Its handle was said to be at zero since the last grant that uses it. */
  readonly atZero: boolean;
  readonly calledAt: number | null;
  readonly stopCalled: boolean;
}

/** `presumed`: nobody threw or reported it in this session yet. */
export interface SelectorNow {
  readonly position: ThrottleId | 'off';
  readonly presumed: boolean;
}
export interface TurnoutNow {
  readonly position: TurnoutPosition;
  readonly presumed: boolean;
}
export interface ToggleNow {
  readonly on: boolean;
  readonly presumed: boolean;
}

/** A place on the track with the way back from it: directed edges, head first. */
export type Trail = readonly Spot[];

export interface TrainNow {
  readonly name: string;
  /** Millimetres; shrinks and grows as cars are set out and picked up. */
  readonly length: number;
  readonly amps: number;
  readonly placed: boolean;
  readonly cab: ThrottleId | null;
  /** Blocks it is in by the reports, head first. */
  readonly blocks: readonly BlockId[];
  /** The head's spot and the edges behind it along the way it came, long enough to hold the train and back to the last block it is in. */
  readonly trail: Trail;
  /** Where in its block the head is, is not known: it came without authority over a turnout set against it, or from nowhere near. */
  readonly lost: boolean;
  /** Stopped by report, placing or correction; an entry ends that. */
  readonly stopped: boolean;
  readonly derailed: boolean;
  readonly stalled: boolean;
  /** Whether its engine will go ahead or back is not known: its power was cut. */
  readonly motionUnknown: boolean;
  /** Where it is to end up, beyond the present authority. */
  readonly declared: string | null;
  readonly together: readonly TrainId[];
  /** Blocks that came with picked-up cars: a clear of them agrees, whatever the length says. */
  readonly picked: readonly BlockId[];
  /** The train that it is coupled into, if it is. */
  readonly coupledInto: TrainId | null;
  /** Added for tonight only. */
  readonly tonight: boolean;
  readonly lastReportAt: number | null;
}

export interface CutNow {
  readonly length: number;
  readonly trail: Trail;
  readonly blocks: readonly BlockId[];
}

export const AUTHORITY_STATES = ['granted', 'acknowledged', 'running', 'fulfilled', 'annulled'] as const;
export type AuthorityStateName = (typeof AUTHORITY_STATES)[number];

/** A turnout on a route. `selfLined`: the train trails it and moves it itself, so it needs no throw. */
export interface LegTurnout {
  readonly id: NodeId;
  readonly position: TurnoutPosition;
  readonly selfLined: boolean;
}

/** One block's stretch of an authority's route. */
export interface Leg {
  readonly block: BlockId;
  /** The gap (or insulated crossing) by which it is entered; null for the stretch the train stands on at the grant. */
  readonly gap: NodeId | null;
  readonly spots: readonly Spot[];
  /** Turnouts and slips of the stretch and the setting the route needs. */
  readonly turnouts: readonly LegTurnout[];
  readonly cab: ThrottleId;
  readonly readBack: boolean;
}

export interface AuthorityNow {
  readonly train: TrainId;
  readonly kind: 'move' | 'limits';
  readonly state: AuthorityStateName;
  /** The blocks granted, in order (of limits: the blocks of the limits). */
  readonly blocks: readonly BlockId[];
  /** Leg 0 is where the train stood at the grant; then one leg a block. Empty for limits. */
  readonly legs: readonly Leg[];
  /** Index of the leg that the head is in. */
  readonly at: number;
  readonly to: string;
  readonly grantedAt: number;
  /** Blocks of limits that count as occupied since they were lined after the read-back. */
  readonly taken: readonly BlockId[];
}

export interface AlarmNow {
  readonly code: AlarmCode;
  readonly about: readonly string[];
  readonly says: string;
  /** The train it was raised for; the alarm may end when the block changes hands. */
  readonly train: string | null;
  /** The number of the entry that raised it. */
  readonly entry: number;
  readonly at: number;
  readonly count: number;
  readonly seen: boolean;
}

/** A refused request that waits for reasons that pass by themselves. */
export interface AskNow {
  readonly train: TrainId;
  readonly to: string;
  /** The request itself, to be made again. */
  readonly request: InputOf<'request-move'>;
  readonly since: number;
  /** The cab's call, if it came before the ask. */
  readonly calledAt: number | null;
  readonly free: boolean;
  /** Why it waits now; empty when free. */
  readonly reasons: readonly Refusal[];
}

export interface TagNow {
  readonly thing: string;
  readonly why: string;
  readonly by: string;
  readonly at: number;
}

/** A phase check of tonight (or carried over): the latest of its pair. */
export interface PhaseCheckNow {
  readonly a: SupplyId;
  readonly b: SupplyId;
  readonly voltsA: number;
  readonly voltsB: number;
  readonly voltsAcross: number;
  readonly at: number;
  /** Percent of each reading, where the meter's tolerance was entered; that of an observation is always the default. */
  readonly tolerancePercent?: number;
  /** A supply of the pair was replugged or exchanged since. */
  readonly lapsed: boolean;
}

/** A hand movement that is still needed. */
export interface Throw {
  readonly kind: 'selector' | 'turnout' | 'toggle';
  readonly id: SelectorId | NodeId | ToggleId;
  readonly to: string | boolean;
  readonly block: BlockId;
  /** What has to come first: ids of things (of the first refusal it would get now, or of the throws before it). */
  readonly waitsFor: readonly string[];
  readonly advice?: string;
}

export interface SessionState {
  readonly phase: SessionPhase;
  readonly alone: boolean;
  /** Inputs taken so far; the next one is number entries + 1. */
  readonly entries: number;
  /** Seconds since the session opened, of the last input. */
  readonly at: number;
  /** Authorities granted so far: the next is a(n+1). */
  readonly granted: number;
  readonly stop: { readonly kind: 'emergency' | 'break'; readonly why: string } | null;
  readonly cabs: Readonly<Record<ThrottleId, CabNow>>;
  readonly selectors: Readonly<Record<SelectorId, SelectorNow>>;
  readonly turnouts: Readonly<Record<NodeId, TurnoutNow>>;
  readonly toggles: Readonly<Record<ToggleId, ToggleNow>>;
  readonly blocks: Readonly<Record<BlockId, BlockNow>>;
  readonly trains: Readonly<Record<TrainId, TrainNow>>;
  readonly cuts: Readonly<Record<CutId, CutNow>>;
  readonly authorities: Readonly<Record<AuthorityId, AuthorityNow>>;
  readonly alarms: readonly AlarmNow[];
  readonly asks: readonly AskNow[];
  readonly tags: readonly TagNow[];
  readonly checks: readonly PhaseCheckNow[];
  readonly tripped: readonly SupplyId[];
  /** Agreed hand-offs of trains without an authority over that block (the crossing is allowed when it comes). */
  readonly handOffs: readonly {
    readonly train: TrainId;
    readonly block: BlockId;
    readonly cab: ThrottleId;
  }[];
  /** Where the railroad's time stood and how fast it runs; null when no ratio was set. */
  readonly clock: ClockNow | null;
}

/** Railroad time: `minutes` since midnight at session second `at`, running `ratio` times as fast as the wall clock while `runs`. */
export interface ClockNow {
  readonly ratio: number;
  readonly minutes: number;
  readonly at: number;
  readonly runs: boolean;
}
