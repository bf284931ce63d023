/** Writes an evening as a file, part by part: an evening of any length passes through without being held whole. */
import type { z } from '../../../shared-model/zod.ts';
import { canonicalJson } from '../log/chain.ts';
import { readDocument } from '../log/documents.ts';
import { storedEvents } from '../log/events.ts';
import type { ReadableLog } from '../log/log.ts';
import { initialStateOf, type SessionRow } from '../log/sessions.ts';
import { type eveningFile, sealOf } from './evening-file.ts';

/** A part ends with the entry that brings it to so many characters. */
const PART_CHARACTERS = 4_000_000;

export interface FilePart {
  readonly text: string;
  /** How many entries have been written so far; null when the file is whole. */
  readonly next: number | null;
}

/** Everything but the entries, before and after them; canonical JSON, so that the same evening is always the same file. */
function aroundEntries(log: ReadableLog, row: SessionRow): readonly [string, string] {
  const { uid, name, note, openedAt, endedAt, railroadHash, head } = row;
  const text = canonicalJson({
    format: 'cabward-evening/1',
    uid,
    name,
    note,
    openedAt,
    endedAt,
    railroadHash,
    railroad: readDocument(log, railroadHash),
    initial: { ...initialStateOf(log, row.id) },
    entries: [],
    head,
    seal: sealOf(row),
  } satisfies z.input<typeof eveningFile>);
  // Only `endedAt` comes before: keys are in order.
  const at = text.indexOf('[') + 1;
  return [text.slice(0, at), text.slice(at)];
}

/**
 * A part of the file of an evening in the log. What stands in the log is canonical JSON already.
 *
 * @param after entries that were written in the parts before; 0 for the first
 */
export function eveningFilePart(log: ReadableLog, row: SessionRow, after: number): FilePart {
  const [before, behind] = aroundEntries(log, row);
  const pieces = after === 0 ? [before] : [];
  let written = after;
  let characters = 0;
  for (const { entry, json, hash } of storedEvents(log, row.id, after + 1, row.entries)) {
    const piece = `${entry === 1 ? '' : ','}{"event":${json},"link":"${hash}"}`;
    pieces.push(piece);
    written = entry;
    characters += piece.length;
    if (characters >= PART_CHARACTERS) break;
  }
  const whole = written >= row.entries;
  return { text: pieces.concat(whole ? [behind] : []).join(''), next: whole ? null : written };
}
