/** The evening that is going on: judged by the rules, on disk before anything is answered, then shown. */
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { BatchItem } from '../../shared-model/session/batch.ts';
import {
  type Evening,
  eveningOf,
  newEvening,
  problemWith,
  take,
  takeBatch,
} from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { CarriedOver } from '../../shared-model/session/initial.ts';
import { withNamesOf } from '../../shared-model/session/script.ts';
import type { LookAhead } from '../../shared-model/session/world.ts';
import type { LiveEvening } from '../../shared-model/wire/contract.ts';
import { type Bad, bad, type Good, good } from './answers.ts';
import { type Clock, type EveningClock, eveningClock, rfc3339 } from './clock.ts';
import { readDocument, storeDocument } from './log/documents.ts';
import { appendEvents, readEvents } from './log/events.ts';
import { versionRows } from './log/library.ts';
import { addSession, initialStateOf, openSessionRow, type SessionRow, sessionRow } from './log/sessions.ts';
import type { Pushes } from './pushes.ts';
import type { Storage } from './storage.ts';

/** How many of the newest events an answer carries. */
const RECENT = 200;

export interface LiveEveningDeps {
  readonly storage: Storage;
  readonly clock: Clock;
  readonly pushes: Pushes;
  readonly uid: () => string;
  /** Whether a move locks the railroad; without it no move is refused for that. */
  readonly lookAhead: LookAhead | undefined;
  /** Called when an evening was ended, after it was answered. */
  readonly ended: (session: number) => void;
}

interface Current {
  readonly session: number;
  readonly openedAt: string;
  readonly resumed: boolean;
  readonly evening: Evening;
  readonly seconds: EveningClock;
}

/** What an evening is opened on. */
export interface Opening {
  readonly railroad: number;
  readonly document: RailroadDocument;
  readonly carriedOver: CarriedOver | undefined;
  readonly alone: boolean;
}

export interface LiveEveningHost {
  /** The evening that is not ended yet, if there is one. */
  going(): { readonly id: string; readonly resumed: boolean } | null;
  read(): LiveEvening | null;
  open(opening: Opening): Good<LiveEvening> | Bad;
  send(
    items: readonly BatchItem[],
  ): Good<{ events: readonly SessionEvent[]; refused: SessionEvent | null }> | Bad;
}

const isEnded = (evening: Evening) => evening.state.phase === 'ended';

/** The evening as it stands on disk. */
function eveningOnDisk({ storage: { log }, lookAhead }: LiveEveningDeps, row: SessionRow): Evening {
  const railroad = indexRailroad(readDocument(log, row.railroadHash));
  return eveningOf(railroad, initialStateOf(log, row.id), readEvents(log, row.id, 1, row.entries), lookAhead);
}

/** Which published version of which railroad an evening is held on; null where the railroad was removed. */
function heldOn({ log }: Storage, session: number): LiveEvening['heldOn'] {
  const row = sessionRow(log, session);
  if (row === null || row.railroad === null) return null;
  const version = versionRows(log, row.railroad).find(({ hash }) => hash === row.railroadHash)?.version;
  return version === undefined ? null : { railroad: String(row.railroad), version };
}

/** Finds the evening that was left open, if there is one, and goes on with it; in a damaged log none goes on. */
function resume(deps: LiveEveningDeps): Current | null {
  const { storage, clock } = deps;
  const row = storage.state().writable ? openSessionRow(storage.log) : null;
  if (row === null) return null;
  const evening = eveningOnDisk(deps, row);
  const seconds = eveningClock(clock, row.openedAt, evening.state.at);
  return { session: row.id, openedAt: row.openedAt, resumed: true, evening, seconds };
}

/** The first item that names something that does not exist; later items may name what earlier ones bring in. */
function namesProblem(evening: Evening, items: readonly BatchItem[]): Bad | null {
  let state = evening.state;
  for (const [index, { input, otherwise }] of items.entries()) {
    const said = problemWith(evening.railroad, state, input);
    if (said !== null) return bad('bad-input', said, `$.items[${index}].input`);
    const instead = otherwise === undefined ? null : problemWith(evening.railroad, state, otherwise);
    if (instead !== null) return bad('bad-input', instead, `$.items[${index}].otherwise`);
    state = withNamesOf(state, input);
  }
  return null;
}

/** Makes the host of the live evening; one that was left open (a crash, a restart) is resumed where it was. */
export function makeLiveEvening(deps: LiveEveningDeps): LiveEveningHost {
  const { storage, clock, pushes } = deps;
  let current = resume(deps);

  const shown = (): LiveEvening | null => {
    if (current === null) return null;
    const { session, openedAt, resumed, evening, seconds } = current;
    return {
      id: String(session),
      openedAt,
      now: seconds(),
      document: evening.railroad.document,
      state: evening.state,
      recent: [...evening.events.slice(-RECENT)],
      heldOn: heldOn(storage, session),
      resumed,
    };
  };

  /** After a write that failed, what is on disk decides: if it got there after all, it counts. */
  const followDisk = (from: Current) => {
    const row = sessionRow(storage.log, from.session);
    if (row === null || row.entries === from.evening.state.entries) return;
    current = { ...from, evening: eveningOnDisk(deps, row) };
    pushes.tell('evening.opened', { id: String(from.session) });
  };

  const record = (from: Current, evening: Evening, events: readonly SessionEvent[]): Good<void> | Bad => {
    const endedAt = isEnded(evening) && !isEnded(from.evening) ? rfc3339(clock) : undefined;
    const stored = storage.write((log) =>
      appendEvents(log, { session: from.session, events, after: evening.state, endedAt }),
    );
    if (!stored.ok) {
      followDisk(from);
      return stored;
    }
    current = { ...from, evening };
    pushes.tell('evening.events', { id: String(from.session), events: [...events] });
    if (endedAt !== undefined) {
      pushes.tell('evenings.changed', {});
      deps.ended(from.session);
    }
    return stored;
  };

  return {
    going: () =>
      current === null || isEnded(current.evening)
        ? null
        : { id: String(current.session), resumed: current.resumed },
    read: shown,
    open: ({ railroad, document, carriedOver, alone }) => {
      if (current !== null && !isEnded(current.evening))
        return bad('refused', 'An evening is going on. End it before another is opened.');
      const fresh = newEvening(indexRailroad(document), carriedOver, deps.lookAhead);
      const openedAt = rfc3339(clock);
      const { evening, event } = take(fresh, { at: 0, input: { do: 'open-session', alone } });
      const stored = storage.write((log) => {
        const railroadHash = storeDocument(log, document);
        const header = { uid: deps.uid(), railroadHash, openedAt, initial: fresh.state };
        const session = addSession(log, header, railroad);
        appendEvents(log, { session, events: [event], after: evening.state });
        return session;
      });
      if (!stored.ok) return stored;
      const seconds = eveningClock(clock, openedAt, 0);
      current = { session: stored.value, openedAt, resumed: false, evening, seconds };
      pushes.tell('evening.opened', { id: String(stored.value) });
      pushes.tell('evenings.changed', {});
      const live = shown();
      return live === null ? bad('fault', 'The evening is not there after it was opened.') : good(live);
    },
    send: (items) => {
      if (current === null || isEnded(current.evening))
        return bad('refused', 'No evening is going on. Open one first.');
      const from = current;
      const unknown = namesProblem(from.evening, items);
      if (unknown !== null) return unknown;
      const taken = takeBatch(from.evening, from.seconds(), [...items]);
      // Refused only because of the items before it, which did not happen: nothing of that happened either.
      if (taken.evening.state.entries === from.evening.state.entries)
        return good({ events: [], refused: taken.ok ? null : taken.event });
      const events = taken.ok ? taken.events : [taken.event];
      const stored = record(from, taken.evening, events);
      if (!stored.ok) return stored;
      return good(taken.ok ? { events, refused: null } : { events: [], refused: taken.event });
    },
  };
}
