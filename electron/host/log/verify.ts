/** Is the whole log what was written? SQLite's own check, every document's hash, every evening's chain and fold. */
import { sha256 } from './chain.ts';
import { eveningFault } from './evening-fault.ts';
import type { ReadableLog } from './log.ts';
import { sessionRows } from './sessions.ts';

/** How many entries were gone through, of all that there are. */
export interface LogProgress {
  readonly entries: number;
  readonly of: number;
}

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

/** So many entries gone through are worth telling. */
const TOLD_EVERY = 10_000;

/** Every evening's chain and fold; `tell` is told how far it is. */
function eveningVerdicts(log: ReadableLog, tell: (progress: LogProgress) => void) {
  const faults: string[] = [];
  const sound: string[] = [];
  const rows = sessionRows(log);
  const of = rows.reduce((sum, { entries }) => sum + entries, 0);
  let before = 0;
  for (const row of rows) {
    const fault = eveningFault(log, row, [], (entries) => {
      if (entries % TOLD_EVERY === 0) tell({ entries: before + entries, of });
    });
    before += row.entries;
    if (fault !== null) faults.push(`evening ${row.id}: ${fault}`);
    else sound.push(`evening ${row.id}: ${row.entries} entries, head ${row.head}`);
  }
  return { faults, sound };
}

/** Checks a whole log. It claims tamper-evident, not tamper-proof: who rewrites everything leaves no trace but another head. */
export function verifyLog(
  log: ReadableLog,
  tell: (progress: LogProgress) => void = () => undefined,
): Verdict {
  const faults: string[] = [];
  const sound: string[] = [];
  const check = () => {
    faults.push(...sqliteFaults(log), ...documentFaults(log), ...guardFaults(log));
    const evenings = eveningVerdicts(log, tell);
    faults.push(...evenings.faults);
    sound.push(...evenings.sound);
  };
  try {
    // All of it as it was at one moment: an evening that is going on grows meanwhile.
    log.transaction(check)();
  } catch (error) {
    faults.push(
      `the file cannot be read to its end (${error instanceof Error ? error.message : String(error)})`,
    );
  }
  return faults.length > 0
    ? { good: false, says: faults }
    : { good: true, says: ["SQLite's own check: ok", ...sound] };
}
