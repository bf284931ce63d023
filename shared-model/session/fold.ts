/** The fold: the state after an event is the state before with the records that the event changed. */
import { RECORD_KEYS, type RecordKey, type SessionEvent, type StateChanges } from './event.ts';
import type { SessionState } from './state.ts';

const isRecordKey = (key: string): key is RecordKey => (RECORD_KEYS as readonly string[]).includes(key);

/** Structural equality of plain data. */
function same(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    (key) =>
      Object.hasOwn(b, key) && same((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}

function recordChanges(
  before: Record<string, unknown>,
  after: Record<string, unknown>,
): Record<string, unknown> {
  const changed: Record<string, unknown> = {};
  for (const id of Object.keys(after)) if (!same(before[id], after[id])) changed[id] = after[id];
  for (const id of Object.keys(before)) if (!Object.hasOwn(after, id)) changed[id] = null;
  return changed;
}

/** What differs between two states, as small as records go. */
export function changesBetween(before: SessionState, after: SessionState): StateChanges {
  const changes: Record<string, unknown> = {};
  for (const key of Object.keys(after) as (keyof SessionState)[]) {
    if (before[key] === after[key]) continue;
    if (isRecordKey(key)) {
      const changed = recordChanges(before[key], after[key]);
      if (Object.keys(changed).length > 0) changes[key] = changed;
    } else if (!same(before[key], after[key])) changes[key] = after[key];
  }
  return changes;
}

/** The state after an event. Pure: the same events always give the same state. */
export function evolve(state: SessionState, event: SessionEvent): SessionState {
  const next: Record<string, unknown> = { ...state };
  for (const [key, change] of Object.entries(event.changes)) {
    if (!isRecordKey(key)) {
      next[key] = change;
      continue;
    }
    const records: Record<string, unknown> = { ...state[key], ...(change as Record<string, unknown>) };
    for (const [id, value] of Object.entries(change as Record<string, unknown>))
      if (value === null) delete records[id];
    next[key] = records;
  }
  return next as unknown as SessionState;
}

/** The state after a list of events. */
export function foldEvents(initial: SessionState, events: Iterable<SessionEvent>): SessionState {
  let state = initial;
  for (const event of events) state = evolve(state, event);
  return state;
}
