/**
 * Where the entries lie in the text of an evening file. They are nearly all of it, so they are cut out and read one by one;
 * what is left is short and read as a whole. The text is only cut here, not judged: whatever is no JSON shows when it is read.
 */
import { lineAndColumn } from '../../../shared-model/malformed.ts';
import type { FileBytes } from './file-bytes.ts';

const CHUNK = 1 << 20;
const KEY = 'entries';
/** More bytes of a key than these are not looked at. */
const LONGEST_KEY = 40;

const code = (character: string): number => character.charCodeAt(0);
const [QUOTE, BACKSLASH, COMMA, COLON, NEWLINE] = [code('"'), code('\\'), code(','), code(':'), code('\n')];
const OPENS: ReadonlySet<number> = new Set([code('{'), code('[')]);
const CLOSES: ReadonlySet<number> = new Set([code('}'), code(']')]);
const BLANK: ReadonlySet<number> = new Set([code(' '), code('\t'), code('\r'), NEWLINE]);

export interface SplitFile {
  /** The text without its entries. */
  readonly rest: string;
  /** Line and column in the file of an offset in `rest`. */
  readonly placeOf: (offset: number) => { readonly line: number; readonly column: number };
  readonly count: number;
  /** Text of an entry, from 0. */
  readonly entry: (index: number) => string;
}

/** How much text was cut out: UTF-16 units as a text counts them, ends of lines, and units after the last of those. */
interface Cut {
  units: number;
  lines: number;
  lastUnits: number;
}

/** Follows a JSON text byte by byte, as far as is needed to know where an entry begins and ends. */
class Scan {
  /** Where each entry begins and ends, one after the other. */
  readonly bounds: number[] = [];
  readonly cut: Cut = { units: 0, lines: 0, lastUnits: 0 };
  begins: number | null = null;
  ends: number | null = null;
  #depth = 0;
  #inString = false;
  #escaped = false;
  #string: number[] = [];
  #key = '';
  #entryFrom = 0;
  #blank = true;

  #isInside(): boolean {
    return this.begins !== null && this.ends === null;
  }

  take(byte: number, at: number): void {
    const wasInside = this.#isInside();
    if (this.#inString) this.#inText(byte);
    else this.#outside(byte, at);
    if (wasInside && this.#isInside()) this.#count(byte);
  }

  #inText(byte: number): void {
    if (this.#escaped) this.#escaped = false;
    else if (byte === BACKSLASH) this.#escaped = true;
    else if (byte === QUOTE) this.#inString = false;
    else if (this.#depth === 1 && this.#string.length < LONGEST_KEY) this.#string.push(byte);
  }

  #outside(byte: number, at: number): void {
    if (!BLANK.has(byte) && !CLOSES.has(byte)) this.#blank = false;
    if (byte === QUOTE) {
      this.#inString = true;
      this.#string = [];
    } else if (OPENS.has(byte)) this.#opens(byte, at);
    else if (CLOSES.has(byte)) this.#closes(at);
    else if (byte === COLON && this.#depth === 1) this.#key = Buffer.from(this.#string).toString('utf8');
    else if (byte === COMMA && this.#depth === 2 && this.#isInside()) {
      this.bounds.push(this.#entryFrom, at);
      this.#entryFrom = at + 1;
    }
  }

  #opens(byte: number, at: number): void {
    this.#depth += 1;
    if (this.#depth !== 2 || byte !== code('[') || this.#key !== KEY || this.begins !== null) return;
    this.begins = at + 1;
    this.#entryFrom = at + 1;
    this.#blank = true;
  }

  #closes(at: number): void {
    this.#depth -= 1;
    if (this.#depth !== 1 || !this.#isInside()) return;
    this.ends = at;
    if (!this.#blank) this.bounds.push(this.#entryFrom, at);
  }

  #count(byte: number): void {
    if (byte === NEWLINE) {
      this.cut.lines += 1;
      this.cut.lastUnits = 0;
    }
    // A character has one unit, or two where its UTF-8 has four bytes; bytes that go on with a character have none.
    const units = (byte & 0xc0) === 0x80 ? 0 : byte >= 0xf0 ? 2 : 1;
    this.cut.units += units;
    if (byte !== NEWLINE) this.cut.lastUnits += units;
  }
}

/** Line and column in the whole text of an offset in what is left of it. */
function placeIn(rest: string, cutAt: number, cut: Cut, offset: number) {
  const place = lineAndColumn(rest, offset);
  if (offset < cutAt) return place;
  const from = lineAndColumn(rest, cutAt);
  const sameLine = place.line === from.line;
  const line = place.line + cut.lines;
  if (!sameLine) return { line, column: place.column };
  if (cut.lines === 0) return { line, column: place.column + cut.units };
  return { line, column: place.column - from.column + cut.lastUnits + 1 };
}

/** Splits a file; yields after each piece that it went through. */
export function* splitFile(bytes: FileBytes): Generator<void, SplitFile> {
  const scan = new Scan();
  for (let from = 0; from < bytes.size; from += CHUNK) {
    const chunk = bytes.read(from, Math.min(from + CHUNK, bytes.size));
    for (let index = 0; index < chunk.length; index += 1) scan.take(chunk[index] ?? 0, from + index);
    yield;
  }
  const begins = scan.begins ?? bytes.size;
  const before = bytes
    .read(0, begins)
    .toString('utf8')
    .replace(/^\ufeff/, '');
  const after = bytes.read(scan.ends ?? bytes.size, bytes.size).toString('utf8');
  const rest = before + after;
  return {
    rest,
    placeOf: (offset) => placeIn(rest, before.length, scan.cut, offset),
    count: scan.bounds.length / 2,
    entry: (index) => {
      const [from = 0, to = 0] = scan.bounds.slice(2 * index, 2 * index + 2);
      return bytes.read(from, to).toString('utf8');
    },
  };
}
