/** An evening as one file, for another installation: everything that is needed to replay it, and every link of its chain. */
import { type Parsed, parseJson, parseValue } from '../../shared-model/malformed.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../shared-model/railroad/runnable.ts';
import { carriedBy } from '../../shared-model/session/carry-over.ts';
import { type Evening, eveningOf, problemWith, take } from '../../shared-model/session/evening.ts';
import { type SessionEvent, sessionEvent } from '../../shared-model/session/event.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import type { SessionState } from '../../shared-model/session/state.ts';
import type { LookAhead } from '../../shared-model/session/world.ts';
import { z } from '../../shared-model/zod.ts';
import { canonicalJson, contentHash, type EveningHeader, headerLink, nextLink } from './log/chain.ts';
import { readDocument } from './log/documents.ts';
import { eventOf, storedEvents } from './log/events.ts';
import type { ReadableLog } from './log/log.ts';
import { initialStateOf, type SessionRow } from './log/sessions.ts';

const link = z.string().regex(/^[0-9a-f]{64}$/, 'expected a SHA-256 in 64 hexadecimal digits');
const moment = z.iso.datetime({ error: 'expected a moment in UTC as RFC 3339 writes it' });

const eveningFile = z.strictObject({
  format: z.literal('cabward-evening/1'),
  uid: z.string().min(1).max(80),
  name: z.string().max(120),
  note: z.string().max(4000),
  openedAt: moment,
  endedAt: moment.nullable(),
  railroadHash: link,
  railroad: railroadDocument,
  initial: z.record(z.string(), z.unknown()),
  entries: z.array(z.strictObject({ event: sessionEvent, link })).max(1_000_000),
  head: link,
});

/** The text of the file of an evening in the log; canonical JSON, so that the same evening is always the same file. */
export function makeEveningFile(log: ReadableLog, row: SessionRow): string {
  const { uid, name, note, openedAt, endedAt, railroadHash, head } = row;
  return canonicalJson({
    format: 'cabward-evening/1',
    uid,
    name,
    note,
    openedAt,
    endedAt,
    railroadHash,
    railroad: readDocument(log, railroadHash),
    initial: { ...initialStateOf(log, row.id) },
    entries: [...storedEvents(log, row.id)].map((stored) => ({ event: eventOf(stored), link: stored.hash })),
    head,
  } satisfies z.input<typeof eveningFile>);
}

/** An evening from a file, checked whole. */
export interface EveningFromFile {
  readonly header: EveningHeader & { readonly initial: SessionState };
  readonly document: RailroadDocument;
  readonly name: string;
  readonly note: string;
  readonly endedAt: string | null;
  readonly entries: readonly { readonly event: SessionEvent; readonly after: SessionState }[];
}

const wrong = (path: string, says: string): { ok: false; malformed: { path: string; says: string } } => ({
  ok: false,
  malformed: { path, says: `${path}: ${says}` },
});

/** The state before the first event, made anew from what it carries over; null where that gives another. */
function initialOf(railroad: Railroad, given: unknown): SessionState | null {
  const carried = carriedBy(given);
  if (carried === null) return null;
  const state = initialState(railroad, carried);
  return canonicalJson(state) === canonicalJson(given) ? state : null;
}

/** Judges an entry again by the rules; null where that does not give the event in the file. */
function judgedAgain(evening: Evening, event: SessionEvent): Evening | null {
  try {
    if (problemWith(evening.railroad, evening.state, event.input) !== null) return null;
    const { at, input, impliedBy } = event;
    const judged = take(evening, impliedBy === undefined ? { at, input } : { at, input, impliedBy });
    return canonicalJson(judged.event) === canonicalJson(event) ? judged.evening : null;
  } catch {
    return null;
  }
}

/**
 * Reads an evening file, which may come from anywhere: schema, hash of the railroad, every link of the chain,
 * and every entry judged again by the rules, so that what is adopted is an evening that could have been held here.
 *
 * @param lookAhead the same that evenings are held with here
 * @returns the evening; or the first place that is not as it was written
 */
export function parseEveningFile(text: string, lookAhead?: LookAhead): Parsed<EveningFromFile> {
  const json = parseJson(text);
  if (!json.ok) return wrong(json.malformed.path, json.malformed.says);
  const parsed = parseValue(eveningFile, json.value);
  if (!parsed.ok) return wrong(parsed.malformed.path, parsed.malformed.says);
  const { uid, railroadHash, openedAt, railroad: document, entries, head } = parsed.value;
  if (contentHash(document) !== railroadHash)
    return wrong('$.railroad', 'expected the railroad that the evening was held on, but it was changed');
  const unrunnable = whyNotRunnable(document);
  if (unrunnable !== null) return wrong('$.railroad', `expected one that can be run: ${unrunnable.says}`);
  const railroad = indexRailroad(document);
  const initial = initialOf(railroad, parsed.value.initial);
  if (initial === null) return wrong('$.initial', 'expected a state in which an evening can begin');
  const header = { uid, railroadHash, openedAt, initial };

  let previous = headerLink(header);
  let evening = eveningOf(railroad, initial, [], lookAhead);
  const judged: { event: SessionEvent; after: SessionState }[] = [];
  for (const [index, entry] of entries.entries()) {
    const path = `$.entries[${index}]`;
    const { event } = entry;
    if (event.entry !== index + 1 || event.at < evening.state.at)
      return wrong(path, `expected entry ${index + 1}, following on the one before`);
    previous = nextLink(previous, canonicalJson(event));
    if (previous !== entry.link)
      return wrong(path, 'expected the entry as it was written, but it was changed');
    const next = judgedAgain(evening, event);
    if (next === null)
      return wrong(path, 'expected what the rules say of this entry, but it says something else');
    evening = next;
    judged.push({ event, after: next.state });
  }
  if (previous !== head) return wrong('$.head', 'expected the link of the last entry: entries are missing');
  const { name, note, endedAt } = parsed.value;
  return { ok: true, value: { header, document, name, note, endedAt, entries: judged } };
}
