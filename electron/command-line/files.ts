/** Reading the files that a call names; what is wrong with one comes back as an answer, in one line. */
import { readFileSync, statSync } from 'node:fs';
import { parseJson } from '../../shared-model/malformed.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { parseRailroadText } from '../../shared-model/railroad/parse-railroad.ts';
import { type Answer, inputError } from './answer.ts';

/** Largest file that is read, in bytes: a railroad of 2,000 blocks is below 2 MB. */
export const MAX_FILE_BYTES = 32 * 1024 * 1024;

export type Loaded<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly answer: Answer };

const wrong = (line: string): { ok: false; answer: Answer } => ({ ok: false, answer: inputError(line) });

const CAUSES: Readonly<Record<string, string>> = {
  ENOENT: 'expected a file, but there is none of that name',
  ENOTDIR: 'expected a file, but a part of the path is not a folder',
  EISDIR: 'expected a file, but it is a folder',
  EACCES: 'expected a file that may be read',
  ENAMETOOLONG: 'expected a shorter path',
};

/** Reads a text file of at most 32 MiB; it has to be UTF-8. */
export function readText(path: string): Loaded<string> {
  try {
    const about = statSync(path);
    if (about.isDirectory()) return wrong(`${path}: ${CAUSES.EISDIR}`);
    if (!about.isFile()) return wrong(`${path}: expected a plain file`);
    if (about.size > MAX_FILE_BYTES)
      return wrong(`${path}: expected at most ${MAX_FILE_BYTES} bytes, but it has ${about.size}`);
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path)) };
  } catch (error) {
    if (error instanceof TypeError && 'code' in error && error.code === 'ERR_ENCODING_INVALID_ENCODED_DATA')
      return wrong(`${path}: expected text in UTF-8, but it is something else`);
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    return wrong(`${path}: ${CAUSES[code] ?? `expected a file that can be read (${code || String(error)})`}`);
  }
}

/** Reads a JSON file whole. */
export function readJson(path: string): Loaded<unknown> {
  const text = readText(path);
  if (!text.ok) return text;
  const parsed = parseJson(text.value);
  return parsed.ok ? parsed : wrong(`${path}: ${parsed.malformed.path}: ${parsed.malformed.says}`);
}

/** Reads a railroad document; its references may still be broken (`check` tells). */
export function readRailroad(path: string): Loaded<RailroadDocument> {
  const text = readText(path);
  if (!text.ok) return text;
  const parsed = parseRailroadText(text.value);
  return parsed.ok ? { ok: true, value: parsed.document } : wrong(`${path}: ${parsed.path}: ${parsed.says}`);
}
