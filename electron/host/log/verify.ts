/** Is the whole log what was written? SQLite's own check, every document's hash, every evening's chain and fold. */
import { sha256 } from './chain.ts';
import { eveningFault } from './evening-fault.ts';
import type { ReadableLog } from './log.ts';
import { sessionRows } from './sessions.ts';

export interface Verdict {
  readonly good: boolean;
  /** What was found, or what was checked; a line each. */
  readonly says: readonly string[];
}

function sqliteFaults(log: ReadableLog): readonly string[] {
  const found = log.pragma('integrity_check') as { integrity_check: string }[];
  const broken = log.pragma('foreign_key_check') as unknown[];
  return [
    ...found
      .map((line) => line.integrity_check)
      .filter((line) => line !== 'ok')
      .slice(0, 5),
    ...(broken.length > 0 ? [`${broken.length} rows refer to something that is not there`] : []),
  ];
}

function documentFaults(log: ReadableLog): readonly string[] {
  return log
    .prepare<[], { hash: string; json: string }>('SELECT hash, json FROM documents')
    .all()
    .filter(({ hash, json }) => sha256(json) !== hash)
    .map(({ hash }) => `railroad document ${hash.slice(0, 12)} was changed`);
}

/** Whether the triggers that keep the log append-only are all there. */
function guardFaults(log: ReadableLog): readonly string[] {
  const expected = ['documents_never_change', 'sessions_keep_their_header', 'events_follow_on'];
  const all = [...expected, 'events_move_the_head', 'events_never_change', 'events_never_go'];
  const there = new Set(log.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all());
  return all.filter((name) => !there.has(name)).map((name) => `the guard ${name} was taken out of the log`);
}

/** Checks a whole log. It claims tamper-evident, not tamper-proof: who rewrites everything leaves no trace but another head. */
export function verifyLog(log: ReadableLog): Verdict {
  const faults: string[] = [];
  const sound: string[] = [];
  try {
    faults.push(...sqliteFaults(log), ...documentFaults(log), ...guardFaults(log));
    for (const session of sessionRows(log)) {
      const fault = eveningFault(log, session);
      if (fault !== null) faults.push(`evening ${session.id}: ${fault}`);
      else sound.push(`evening ${session.id}: ${session.entries} entries, head ${session.head}`);
    }
  } catch (error) {
    faults.push(
      `the file cannot be read to its end (${error instanceof Error ? error.message : String(error)})`,
    );
  }
  return faults.length > 0
    ? { good: false, says: faults }
    : { good: true, says: ["SQLite's own check: ok", ...sound] };
}
