/** All writing goes through here: one transaction an act, and what the user is told when the disk will not take it. */
import Sqlite from 'better-sqlite3';
import type { LogState } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import type { ReadableLog, WritableLog } from './log/log.ts';
import type { Reserve } from './log/reserve.ts';

/** The storage interface of the host; a test may stand one in between that fails. */
export interface Storage {
  readonly log: ReadableLog;
  /** Does an act in one transaction. When it answers well, it is on disk; when not, nothing of it happened. */
  write<Value>(act: (log: WritableLog) => Value): Good<Value> | Bad;
  state(): LogState;
  /** The log for an online backup; null while it may not be written. */
  forBackup(): WritableLog | null;
}

const USING_RESERVE =
  'The disk is full. Room that was set aside is being used now: end the evening soon and make room on the disk.';
const NO_ROOM =
  'The disk is full: nothing is recorded, so nothing is done. Make room on the disk, then do it again.';

const codeOf = (error: unknown) => (error instanceof Sqlite.SqliteError ? error.code : '');

/** A log that is damaged: it answers every write with the words for that. */
export function readOnlyStorage(log: ReadableLog, says: string): Storage {
  return {
    log,
    write: () => bad('refused', says),
    state: () => ({ writable: false, says }),
    forBackup: () => null,
  };
}

/**
 * @param reserve room on the disk that is given up when there is no other
 * @param changed told whenever what the user should know of the log changes
 */
export function writableStorage(
  log: WritableLog,
  reserve: Reserve,
  changed: (state: LogState) => void,
): Storage {
  let state: LogState = { writable: true, says: null };
  const become = (next: LogState) => {
    if (next.says === state.says) return;
    state = next;
    changed(state);
  };
  const attempt = <Value>(act: (log: WritableLog) => Value): Good<Value> =>
    good(log.transaction(() => act(log)).immediate());

  return {
    log,
    state: () => state,
    forBackup: () => log,
    write: (act) => {
      try {
        const done = attempt(act);
        // It went through again without help: the banner goes once the reserve is back.
        if (state.says !== null && reserve.hold()) become({ writable: true, says: null });
        return done;
      } catch (error) {
        const code = codeOf(error);
        if (code === 'SQLITE_FULL') {
          if (reserve.giveUp()) {
            become({ writable: true, says: USING_RESERVE });
            try {
              return attempt(act);
            } catch (again) {
              if (codeOf(again) !== 'SQLITE_FULL') throw again;
            }
          }
          become({ writable: false, says: NO_ROOM });
          return bad('fault', NO_ROOM);
        }
        if (code === '') throw error;
        const says = `The log could not be written (${code}): nothing is recorded, so nothing is done.`;
        become({ writable: false, says });
        return bad('fault', says);
      }
    },
  };
}
