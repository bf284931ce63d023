/** Reads an evening file, which may come from anywhere, and judges it whole before any of it is adopted. */
import { type Parsed, parseJson, parseValue, unkeepable } from '../../../shared-model/malformed.ts';
import type { RailroadDocument } from '../../../shared-model/railroad/document.ts';
import { indexRailroad, type Railroad } from '../../../shared-model/railroad/railroad.ts';
import { whyNotRunnable } from '../../../shared-model/railroad/runnable.ts';
import { carriedBy } from '../../../shared-model/session/carry-over.ts';
import { type Evening, eveningOf, problemWith, take } from '../../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../../shared-model/session/event.ts';
import { initialState } from '../../../shared-model/session/initial.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';
import type { LookAhead } from '../../../shared-model/session/world.ts';
import {
  canonicalJson,
  contentHash,
  type EveningHeader,
  type Hash,
  headerLink,
  nextLink,
} from '../log/chain.ts';
import { eveningFile, eveningFileEntry, MOST_ENTRIES, sealOf } from './evening-file.ts';
import type { FileBytes } from './file-bytes.ts';
import { type SplitFile, splitFile } from './split-file.ts';

/** Entries judged in one turn: some milliseconds' work. */
const PIECE = 20;

/** An evening from a file, checked whole. */
export interface EveningFromFile {
  readonly header: EveningHeader & { readonly initial: SessionState };
  readonly document: RailroadDocument;
  readonly name: string;
  readonly note: string;
  readonly endedAt: string | null;
  readonly head: Hash;
  readonly count: number;
  /** Entries `from` to `to`, both included, as they were found sound. */
  readonly events: (from: number, to: number) => readonly SessionEvent[];
}

/** How many entries were judged. */
export interface Judged {
  readonly entries: number;
  readonly of: number;
}

type Wrong = Extract<Parsed<never>, { readonly ok: false }>;

const wrong = (path: string, says: string): Wrong => ({
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

/** What stands in the file beside its entries, and the evening before the first of them. */
function beginningOf(split: SplitFile, lookAhead: LookAhead | undefined) {
  const json = parseJson(split.rest, split.placeOf);
  if (!json.ok) return wrong(json.malformed.path, json.malformed.says);
  const odd = unkeepable(json.value);
  if (odd !== null) return wrong(odd.path, odd.says);
  const parsed = parseValue(eveningFile, json.value);
  if (!parsed.ok) return wrong(parsed.malformed.path, parsed.malformed.says);
  const { railroadHash, railroad: document } = parsed.value;
  if (split.count > MOST_ENTRIES)
    return wrong('$.entries', `expected at most ${MOST_ENTRIES} entries, but there are ${split.count}`);
  if (contentHash(document) !== railroadHash)
    return wrong('$.railroad', 'expected the railroad that the evening was held on, but it was changed');
  const unrunnable = whyNotRunnable(document);
  if (unrunnable !== null) return wrong('$.railroad', `expected one that can be run: ${unrunnable.says}`);
  const railroad = indexRailroad(document);
  const initial = initialOf(railroad, parsed.value.initial);
  if (initial === null) return wrong('$.initial', 'expected a state in which an evening can begin');
  const evening = eveningOf(railroad, initial, [], lookAhead);
  return { ok: true, file: parsed.value, document, initial, evening } as const;
}

/** Judges an entry again by the rules; null where that does not give the event in the file. */
function judgedAgain(evening: Evening, event: SessionEvent, canonical: string): Evening | null {
  try {
    if (problemWith(evening.railroad, evening.state, event.input) !== null) return null;
    const { at, input, impliedBy } = event;
    const judged = take(evening, impliedBy === undefined ? { at, input } : { at, input, impliedBy });
    return canonicalJson(judged.event) === canonical ? judged.evening : null;
  } catch {
    return null;
  }
}

/** Reads an entry by the schema. */
function entryIn(split: SplitFile, index: number) {
  const path = `$.entries[${index}]`;
  const json = parseJson(split.entry(index));
  if (!json.ok) return wrong(path, json.malformed.says);
  const odd = unkeepable(json.value);
  if (odd !== null) return wrong(`${path}${odd.path.slice(1)}`, odd.says);
  const parsed = parseValue(eveningFileEntry, json.value);
  if (parsed.ok) return parsed;
  return wrong(`${path}${parsed.malformed.path.slice(1)}`, parsed.malformed.says);
}

/** Entries again, once they were found sound. */
const soundEvents = (split: SplitFile, from: number, to: number): readonly SessionEvent[] =>
  Array.from(
    { length: Math.max(0, Math.min(to, split.count) - from + 1) },
    (_, index) => (JSON.parse(split.entry(from - 1 + index)) as { event: SessionEvent }).event,
  );

/** How far a file was found sound. */
interface Sound {
  readonly link: Hash;
  readonly evening: Evening;
}

/** One more entry of a file that was sound so far. */
function withEntry({ link, evening }: Sound, split: SplitFile, index: number): Sound | Wrong {
  const path = `$.entries[${index}]`;
  const entry = entryIn(split, index);
  if (!entry.ok) return entry;
  const { event } = entry.value;
  if (event.entry !== index + 1 || event.at < evening.state.at)
    return wrong(path, `expected entry ${index + 1}, following on the one before`);
  const canonical = canonicalJson(event);
  const next = nextLink(link, canonical);
  if (next !== entry.value.link)
    return wrong(path, 'expected the entry as it was written, but it was changed');
  // Only taking something back looks at earlier entries, so that no others are held.
  const events = event.input.do === 'retract' ? soundEvents(split, 1, index) : [];
  const after = judgedAgain({ ...evening, events }, event, canonical);
  if (after === null)
    return wrong(path, 'expected what the rules say of this entry, but it says something else');
  return { link: next, evening: { ...after, events: [] } };
}

/**
 * Reads an evening file: schema, hash of the railroad, every link of the chain, and every entry judged again by the rules,
 * so that what is adopted is an evening that could have been held here.
 *
 * @param lookAhead the same that evenings are held with here
 * @returns the evening; or the first place that is not as it was written. Yields how far it has got.
 */
export function* readEveningFile(
  bytes: FileBytes,
  lookAhead?: LookAhead,
): Generator<Judged, Parsed<EveningFromFile>> {
  const splitting = splitFile(bytes);
  let piece = splitting.next();
  while (piece.done !== true) {
    yield { entries: 0, of: 0 };
    piece = splitting.next();
  }
  const split = piece.value;
  const beginning = beginningOf(split, lookAhead);
  if (!beginning.ok) return beginning;
  const { document, initial } = beginning;
  const { uid, railroadHash, openedAt, endedAt, name, note, head } = beginning.file;
  const header = { uid, railroadHash, openedAt, initial };
  let sound: Sound = { link: headerLink(header), evening: beginning.evening };
  for (let index = 0; index < split.count; index += 1) {
    const next = withEntry(sound, split, index);
    if ('ok' in next) return next;
    sound = next;
    if (index % PIECE === PIECE - 1) yield { entries: index + 1, of: split.count };
  }
  if (sound.link !== head) return wrong('$.head', 'expected the link of the last entry: entries are missing');
  if (sealOf(beginning.file) !== beginning.file.seal)
    return wrong(
      '$.seal',
      'expected name, note and endedAt as they were written, but one of them was changed',
    );
  const events = (from: number, to: number) => soundEvents(split, from, to);
  return {
    ok: true,
    value: { header, document, name, note, endedAt, head, count: split.count, events },
  };
}
