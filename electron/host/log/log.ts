/** A log that is open. The type says whether a function may write: who is handed a `ReadableLog` cannot. */
import type { Database } from 'better-sqlite3';

declare const readable: unique symbol;
declare const writable: unique symbol;

/** A log opened for reading, or one that is damaged. */
export type ReadableLog = Database & { readonly [readable]: true };
/** The one log that this process writes; it holds the lock. */
export type WritableLog = ReadableLog & { readonly [writable]: true };

/** Why a log could not be opened; `says` is for the user. */
export interface LogProblem {
  readonly code:
    | 'damaged'
    | 'no-such-file'
    | 'unreadable'
    | 'not-a-log'
    | 'from-the-future'
    | 'sqlite-too-old'
    | 'not-durable';
  readonly says: string;
}
