/** The bytes of an evening file: a text that came at once, or one that came in parts and lies on the disk meanwhile. */
import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Bytes of UTF-8 that are read from where they lie. */
export interface FileBytes {
  readonly size: number;
  /** Bytes `from` to `to`, the last not included. */
  read(from: number, to: number): Buffer;
}

export function bytesOfText(text: string): FileBytes {
  const bytes = Buffer.from(text, 'utf8');
  return { size: bytes.length, read: (from, to) => bytes.subarray(from, to) };
}

/** A text that comes in parts. */
export interface Spool extends FileBytes {
  add(text: string): void;
  /** Nothing of it is left. */
  drop(): void;
}

/** Keeps what comes in a file of its own, among what the system keeps for a while only. */
export function spool(): Spool {
  const folder = mkdtempSync(join(tmpdir(), 'cabward-incoming-'));
  const handle = openSync(join(folder, 'evening.json'), 'w+', 0o600);
  let size = 0;
  return {
    get size() {
      return size;
    },
    add: (text) => {
      const bytes = Buffer.from(text, 'utf8');
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at, bytes.length - at, size + at);
      size += bytes.length;
    },
    read: (from, to) => {
      const bytes = Buffer.alloc(to - from);
      let read = 0;
      while (read < bytes.length) {
        const more = readSync(handle, bytes, read, bytes.length - read, from + read);
        if (more === 0) throw new Error('what came of the evening file is no longer there');
        read += more;
      }
      return bytes;
    },
    drop: () => {
      closeSync(handle);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
