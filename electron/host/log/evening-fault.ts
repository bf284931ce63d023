/** Is one evening in the log what was written? Its header, every link of its chain, its fold, and what is kept beside it. Who wants to know something else of every entry is told on the way. */
import { type EveningReader, tellReaders } from '../../../shared-model/logbook/pass.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { evolve } from '../../../shared-model/session/fold.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import { canonicalJson, headerLink, nextLink, sha256 } from './chain.ts';
import { eventOf, type StoredEvent, storedEvents } from './events.ts';
import type { ReadableLog } from './log.ts';
import { retractedIn } from './moments.ts';
import { initialStateOf, type SessionRow } from './sessions.ts';

/** Entries looked at in one go: some milliseconds' work, so that a replay beside it is not held up. */
const PIECE = 200;

interface Checkpoint {
  readonly entry: number;
  readonly state: string;
  readonly hash: string;
}

/** How far an evening was found sound. */
interface Sound {
  readonly state: SessionState;
  readonly link: string;
  readonly refusals: number;
  readonly alarms: number;
}

/** The states that are kept at entries `from` to `to`: those of a long evening together would fill the memory. */
function checkpointsIn(
  log: ReadableLog,
  session: number,
  from: number,
  to: number,
): ReadonlyMap<number, Checkpoint> {
  const all = log
    .prepare<[number, number, number], Checkpoint>(
      'SELECT entry, state, hash FROM checkpoints WHERE session = ? AND entry BETWEEN ? AND ?',
    )
    .all(session, from, to);
  return new Map(all.map((checkpoint) => [checkpoint.entry, checkpoint]));
}

/** What speaks against one more event; else how far the evening is sound with it. */
function withEvent(
  before: Sound,
  entry: number,
  stored: StoredEvent,
): { readonly sound: Sound; readonly event: SessionEvent } | string {
  if (stored.entry !== entry) return `entry ${entry} is missing`;
  if (stored.previous !== before.link || nextLink(before.link, stored.json) !== stored.hash)
    return `entry ${entry} was changed (the chain breaks there)`;
  const event = eventOf(stored);
  if (event.entry !== entry || event.at < before.state.at)
    return `entry ${entry} does not follow on the one before`;
  if (event.at !== stored.at || event.outcome !== stored.outcome)
    return `entry ${entry} was changed (its columns are not its text)`;
  const sound = {
    state: evolve(before.state, event),
    link: stored.hash,
    refusals: before.refusals + Number(event.outcome === 'refused'),
    alarms: before.alarms + Number(event.outcome === 'alarm'),
  };
  return { sound, event };
}

/**
 * Goes through an evening a piece at a time; the first fault ends it, since what follows from a fault says nothing more.
 *
 * @param readers told every entry that was found sound, with the state before and after it
 * @returns the fault, or null; on the way, at the end of each piece, how many entries were gone through
 */
export function* throughEvening(
  log: ReadableLog,
  session: SessionRow,
  readers: readonly EveningReader[] = [],
): Generator<number, string | null> {
  const { id, uid, railroadHash, openedAt, firstLink, entries } = session;
  const initial = initialStateOf(log, id);
  if (headerLink({ uid, railroadHash, openedAt, initial }) !== firstLink) return 'its header was changed';
  const retracted = readers.length === 0 ? new Set<number>() : retractedIn(log, id);
  const last = Number(
    log.prepare('SELECT coalesce(max(entry), 0) FROM events WHERE session = ?').pluck().get(id),
  );
  let sound: Sound = { state: initial, link: firstLink, refusals: 0, alarms: 0 };
  let entry = 0;
  while (entry < last) {
    // Read whole, since nothing can be written while a statement is being stepped through.
    const piece = [...storedEvents(log, id, entry + 1, Math.min(entry + PIECE, last))];
    const checkpoints = checkpointsIn(log, id, entry + 1, entry + PIECE);
    if (piece.length === 0) return `entry ${entry + 1} is missing`;
    for (const stored of piece) {
      entry += 1;
      const next = withEvent(sound, entry, stored);
      if (typeof next === 'string') return next;
      tellReaders(readers, sound.state, next.sound.state, next.event, retracted);
      sound = next.sound;
      const kept = checkpoints.get(entry);
      if (
        kept !== undefined &&
        (kept.state !== canonicalJson(sound.state) || sha256(kept.state) !== kept.hash)
      )
        return `the kept state at entry ${entry} is not the fold of the events up to it`;
    }
    yield entry;
  }
  if (last !== entries || sound.link !== session.head)
    return `it ends at entry ${last}, but ${entries} were written`;
  if (sound.refusals !== session.refusals || sound.alarms !== session.alarms)
    return 'its counts of refusals and alarms were changed';
  return null;
}

/**
 * What is wrong with an evening's chain or fold; null when nothing is.
 *
 * @param readers told every entry
 * @param tell told now and then how many entries were gone through
 */
export function eveningFault(
  log: ReadableLog,
  session: SessionRow,
  readers: readonly EveningReader[] = [],
  tell: (entries: number) => void = () => undefined,
): string | null {
  const pieces = throughEvening(log, session, readers);
  let piece = pieces.next();
  while (piece.done !== true) {
    tell(piece.value);
    piece = pieces.next();
  }
  return piece.value;
}
