/** Is the log what was written? SQLite's own check, every document's hash, every evening's chain and fold. */
import { evolve } from '../../../shared-model/session/fold.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { canonicalJson, headerLink, nextLink, sha256 } from './chain.ts';
import { eventOf, storedEvents } from './events.ts';
import type { ReadableLog } from './log.ts';
import { initialStateOf, type SessionRow, sessionRows } from './sessions.ts';

export interface Verdict {
  readonly good: boolean;
  /** What was found, or what was checked; a line each. */
  readonly says: readonly string[];
}

/** What is wrong with one evening's chain or fold; null when nothing is. The first thing only: what follows from it says nothing more. */
export function eveningFault(log: ReadableLog, session: SessionRow): string | null {
  const initial = initialStateOf(log, session.id);
  const { uid, railroadHash, openedAt } = session;
  if (headerLink({ uid, railroadHash, openedAt, initial }) !== session.firstLink)
    return 'its header was changed';
  const checkpoints = new Map(
    log
      .prepare<[number], { entry: number; state: string; hash: string }>(
        'SELECT entry, state, hash FROM checkpoints WHERE session = ?',
      )
      .all(session.id)
      .map((checkpoint) => [checkpoint.entry, checkpoint]),
  );
  let state: SessionState = initial;
  let link = session.firstLink;
  let entry = 0;
  const counted = { refused: 0, alarm: 0 };
  for (const stored of storedEvents(log, session.id)) {
    if (stored.entry !== entry + 1) return `entry ${entry + 1} is missing`;
    entry = stored.entry;
    if (stored.previous !== link || nextLink(link, stored.json) !== stored.hash)
      return `entry ${entry} was changed (the chain breaks there)`;
    link = stored.hash;
    const event = eventOf(stored);
    if (event.entry !== entry || event.at < state.at)
      return `entry ${entry} does not follow on the one before`;
    if (event.at !== stored.at || event.outcome !== stored.outcome)
      return `entry ${entry} was changed (its columns are not its text)`;
    if (event.outcome !== 'done') counted[event.outcome] += 1;
    state = evolve(state, event);
    const checkpoint = checkpoints.get(entry);
    if (
      checkpoint !== undefined &&
      (checkpoint.state !== canonicalJson(state) || sha256(checkpoint.state) !== checkpoint.hash)
    )
      return `the kept state at entry ${entry} is not the fold of the events up to it`;
  }
  if (entry !== session.entries || link !== session.head)
    return `it ends at entry ${entry}, but ${session.entries} were written`;
  if (counted.refused !== session.refusals || counted.alarm !== session.alarms)
    return 'its counts of refusals and alarms were changed';
  return null;
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
