/** What every rule looks at: the railroad and the folded state; and the one door by which records are changed. */
import type { BlockId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Spot } from '../railroad/travel.ts';
import type { RecordKey } from './event.ts';
import type { SessionState, Trail } from './state.ts';

/** One train as the look-ahead sees it: where it would stand, and where it is to end up (null: parked). */
export interface LookAheadTrain {
  readonly train: TrainId;
  readonly lengthMm: number;
  /** Head first; empty while its place is unknown. */
  readonly trail: Trail;
  readonly head: Spot | null;
  readonly blocks: readonly BlockId[];
  /** Blocks in which cars stand that it has picked up. */
  readonly beyond: readonly BlockId[];
  readonly to: string | null;
}

export interface LookAheadSituation {
  readonly trains: readonly LookAheadTrain[];
  /** Blocks in which cars stand without an engine. */
  readonly cuts: readonly BlockId[];
}

export interface LookAheadAnswer {
  readonly verdict: 'safe' | 'gridlock' | 'undecided';
  readonly trains: readonly string[];
  readonly blocks: readonly string[];
}

/** Decides whether every declared train can still get where it is to end up; given by the planning room, since planning stands above the session. */
export type LookAhead = (railroad: Railroad, situation: LookAheadSituation) => LookAheadAnswer;

export interface World {
  readonly railroad: Railroad;
  readonly state: SessionState;
  readonly lookAhead?: LookAhead | undefined;
}

/** The world with some plain values of the state replaced. */
export function withState(world: World, patch: Partial<SessionState>): World {
  return { ...world, state: { ...world.state, ...patch } };
}

type RecordOf<Key extends RecordKey> = SessionState[Key][keyof SessionState[Key]];

/** The world with one record patched (or made, when the patch is whole). */
export function withRecord<Key extends RecordKey>(
  world: World,
  key: Key,
  id: string,
  patch: Partial<RecordOf<Key>>,
): World {
  const records = world.state[key] as Readonly<Record<string, object>>;
  return withState(world, {
    [key]: { ...records, [id]: { ...records[id], ...patch } },
  } as Partial<SessionState>);
}

/** The world without one record. */
export function withoutRecord(world: World, key: RecordKey, id: string): World {
  const records = Object.fromEntries(Object.entries(world.state[key]).filter(([other]) => other !== id));
  return withState(world, { [key]: records } as Partial<SessionState>);
}

/** The entries of a record with their branded ids. */
export function entriesOf<Id extends string, Value>(
  records: Readonly<Record<Id, Value>>,
): readonly [Id, Value][] {
  return Object.entries(records) as [Id, Value][];
}

/** Each thing once, in the order of first appearance. */
export function unique<T>(list: readonly T[]): readonly T[] {
  return [...new Set(list)];
}
