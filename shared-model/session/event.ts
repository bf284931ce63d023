/** What the log keeps of one input: the input, the verdict, and every record of the state that it changed. */
import { type AuthorityId, authorityId } from '../ids.ts';
import { ALARM_CODES, REFUSAL_CODES, type Reason } from '../refusal.ts';
import { z } from '../zod.ts';
import { type SessionInput, sessionInput } from './input.ts';
import type { SessionState, Throw } from './state.ts';

export const OUTCOMES = ['done', 'refused', 'alarm'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** State keys that hold records by id; a change to them is kept record by record (null: the record is gone). */
export const RECORD_KEYS = [
  'cabs',
  'selectors',
  'turnouts',
  'toggles',
  'blocks',
  'trains',
  'cuts',
  'authorities',
] as const;
export type RecordKey = (typeof RECORD_KEYS)[number];

/** What differs between two states: whole values for plain keys, records by id for the others. */
export type StateChanges = {
  readonly [Key in Exclude<keyof SessionState, RecordKey>]?: SessionState[Key];
} & {
  readonly [Key in RecordKey]?: Readonly<Record<string, unknown | null>>;
};

export interface SessionEvent {
  /** The number of the entry, counted from 1 over the inputs of the session. */
  readonly entry: number;
  /** Seconds since the session was opened. */
  readonly at: number;
  readonly input: SessionInput;
  /** Set where one key made several inputs and this one was implied. */
  readonly impliedBy?: string;
  readonly outcome: Outcome;
  /** The reasons of a refusal, or the alarms raised. */
  readonly reasons: readonly Reason[];
  /** A grant's authority. */
  readonly authority?: AuthorityId;
  /** The throws that a grant (or a change of cab) still needs, in order. */
  readonly throws?: readonly Throw[];
  readonly guards?: readonly Throw[];
  /** Plain words that go with it: what to say or to mind. */
  readonly advice?: readonly string[];
  readonly changes: StateChanges;
}

const thrown = z.strictObject({
  kind: z.enum(['selector', 'turnout', 'toggle']),
  id: z.string(),
  to: z.union([z.string(), z.boolean()]),
  block: z.string(),
  waitsFor: z.array(z.string()),
  advice: z.string().optional(),
});

const eventShape = z.strictObject({
  entry: z.number().int().positive(),
  at: z.number(),
  input: sessionInput,
  impliedBy: z.string().optional(),
  outcome: z.enum(OUTCOMES),
  reasons: z.array(
    z.strictObject({
      code: z.enum([...REFUSAL_CODES, ...ALARM_CODES]),
      about: z.array(z.string()),
      says: z.string(),
    }),
  ),
  authority: authorityId.optional(),
  throws: z.array(thrown).optional(),
  guards: z.array(thrown).optional(),
  advice: z.array(z.string()).optional(),
  changes: z.record(z.string(), z.unknown()),
});

/** Parses one event as it comes from a log, a file or the wire. The records inside `changes` are what this program wrote; the hash chain vouches for them. */
export const sessionEvent = eventShape as unknown as z.ZodType<SessionEvent>;
