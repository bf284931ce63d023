/** Railroad documents by content hash: stored once, whole, never changed, so that an old evening replays on the railroad as it was. */
import { parseValue } from '../../../shared-model/malformed.ts';
import { type RailroadDocument, railroadDocument } from '../../../shared-model/railroad/document.ts';
import { canonicalJson, type Hash, sha256 } from './chain.ts';
import type { ReadableLog, WritableLog } from './log.ts';

/** Stores a document, if it is not there yet; returns its content hash. */
export function storeDocument(log: WritableLog, document: RailroadDocument): Hash {
  const json = canonicalJson(document);
  const hash = sha256(json);
  log.prepare('INSERT OR IGNORE INTO documents (hash, json) VALUES (?, ?)').run(hash, json);
  return hash;
}

/** The document with that hash. Throws where it is not there or was changed: that is a damaged log. */
export function readDocument(log: ReadableLog, hash: Hash): RailroadDocument {
  const json = log.prepare('SELECT json FROM documents WHERE hash = ?').pluck().get(hash);
  if (typeof json !== 'string') throw new Error(`the log has no railroad document ${hash}`);
  if (sha256(json) !== hash) throw new Error(`the railroad document ${hash} in the log was changed`);
  const parsed = parseValue(railroadDocument, JSON.parse(json));
  if (!parsed.ok)
    throw new Error(`the railroad document ${hash}: ${parsed.malformed.path}: ${parsed.malformed.says}`);
  return parsed.value;
}
