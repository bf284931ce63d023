/** Sessions in the log: the header that never changes, the labels that the user may change, and what the triggers keep count of. */
import type { SessionState } from '../../../shared-model/session/state.ts';
import { canonicalJson, type EveningHeader, type Hash, headerLink } from './chain.ts';
import type { ReadableLog, WritableLog } from './log.ts';

export interface SessionRow {
  readonly id: number;
  readonly uid: string;
  /** The railroad's number in the library; null when it came with an imported evening or was removed. */
  readonly railroad: number | null;
  readonly railroadName: string;
  readonly railroadHash: Hash;
  readonly openedAt: string;
  readonly endedAt: string | null;
  readonly name: string;
  readonly note: string;
  readonly archived: boolean;
  readonly entries: number;
  readonly refusals: number;
  readonly alarms: number;
  readonly people: readonly string[];
  /** First and newest link of its chain. */
  readonly firstLink: Hash;
  readonly head: Hash;
}

interface Stored {
  id: number;
  uid: string;
  railroad: number | null;
  railroad_name: string;
  railroad_hash: string;
  opened_at: string;
  ended_at: string | null;
  name: string;
  note: string;
  archived: number;
  entries: number;
  refusals: number;
  alarms: number;
  people: string;
  first_link: string;
  head: string;
}

const SELECT = `SELECT s.id, s.uid, s.railroad, json_extract(d.json, '$.name') AS railroad_name, s.railroad_hash, s.opened_at, s.ended_at,
  s.name, s.note, s.archived, s.entries, s.refusals, s.alarms, s.people, s.first_link, s.head
  FROM sessions s JOIN documents d ON d.hash = s.railroad_hash
  WHERE s.id NOT IN (SELECT session FROM partial_sessions)`;

const rowOf = (stored: Stored): SessionRow => ({
  id: stored.id,
  uid: stored.uid,
  railroad: stored.railroad,
  railroadName: stored.railroad_name,
  railroadHash: stored.railroad_hash,
  openedAt: stored.opened_at,
  endedAt: stored.ended_at,
  name: stored.name,
  note: stored.note,
  archived: stored.archived === 1,
  entries: stored.entries,
  refusals: stored.refusals,
  alarms: stored.alarms,
  people: JSON.parse(stored.people) as string[],
  firstLink: stored.first_link,
  head: stored.head,
});

/** All evenings, newest first; none of which only a part is there. */
export function sessionRows(log: ReadableLog): readonly SessionRow[] {
  return log.prepare<[], Stored>(`${SELECT} ORDER BY s.opened_at DESC, s.id DESC`).all().map(rowOf);
}

export function sessionRow(log: ReadableLog, id: number): SessionRow | null {
  const stored = log.prepare<[number], Stored>(`${SELECT} AND s.id = ?`).get(id);
  return stored === undefined ? null : rowOf(stored);
}

/** The evening that was opened and not ended, if there is one; the newest of several. */
export function openSessionRow(log: ReadableLog): SessionRow | null {
  const stored = log.prepare<[], Stored>(`${SELECT} AND s.ended_at IS NULL ORDER BY s.id DESC LIMIT 1`).get();
  return stored === undefined ? null : rowOf(stored);
}

/** The evening that was last held on a railroad of the library: what the next one carries over. */
export function lastSessionOn(log: ReadableLog, railroad: number): SessionRow | null {
  const stored = log
    .prepare<[number], Stored>(`${SELECT} AND s.railroad = ? ORDER BY s.id DESC LIMIT 1`)
    .get(railroad);
  return stored === undefined ? null : rowOf(stored);
}

/** The state before an evening's first event. */
export function initialStateOf(log: ReadableLog, id: number): SessionState {
  const json = log.prepare('SELECT initial FROM sessions WHERE id = ?').pluck().get(id);
  if (typeof json !== 'string') throw new Error(`the log has no session ${id}`);
  return JSON.parse(json) as SessionState;
}

/** Puts a new evening into the log; its document has to be stored already. Returns its number. */
export function addSession(
  log: WritableLog,
  header: EveningHeader & { readonly initial: SessionState },
  railroad: number | null,
): number {
  const link = headerLink(header);
  const added = log
    .prepare(
      `INSERT INTO sessions (uid, railroad, railroad_hash, opened_at, initial, first_link, head) VALUES (?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(
      header.uid,
      railroad,
      header.railroadHash,
      header.openedAt,
      canonicalJson(header.initial),
      link,
      link,
    );
  return Number(added.lastInsertRowid);
}

/** What can be changed of an evening; what is not given stays. */
export interface Labels {
  readonly name?: string | undefined;
  readonly note?: string | undefined;
  readonly archived?: boolean | undefined;
  /** RFC 3339. */
  readonly endedAt?: string | undefined;
}

export function labelSession(log: WritableLog, id: number, { name, note, archived, endedAt }: Labels): void {
  log
    .prepare(
      `UPDATE sessions SET name = coalesce(?, name), note = coalesce(?, note), archived = coalesce(?, archived),
         ended_at = coalesce(?, ended_at) WHERE id = ?`,
    )
    .run(name ?? null, note ?? null, archived === undefined ? null : Number(archived), endedAt ?? null, id);
}
