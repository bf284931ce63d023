/**
 * The joint standings that a search has seen, each once: rows of numbers found again by hash. Two bytes a number, in pages, so that
 * nothing but the hashes is made anew when it grows.
 */
import type { Memory } from '../memory.ts';

export interface JointTable {
  /** The number of a new row; `KNOWN`: it is there already; `FULL`: there is no memory for it. */
  add(row: Int32Array): number;
  /** Copies a row out. */
  read(number: number, into: Int32Array): void;
  size(): number;
}

export const KNOWN = -1;
export const FULL = -2;

const PAGE_BITS = 10;
const PAGE_ROWS = 1 << PAGE_BITS;
const IN_PAGE = PAGE_ROWS - 1;
const NONE = -1;
const FIRST_HASH = 0x811c9dc5;

/**
 * @param width numbers in a row, each below 65,536
 * @param memory what it has of it stays taken until whoever gave it takes it back
 */
export function jointTable(width: number, memory: Memory): JointTable {
  const pages: Uint16Array[] = [];
  /** Numbers of rows by their hash; a power of two, at most half of them used. */
  let slots = new Int32Array(0);
  let size = 0;

  const slotOf = (hash: number): number => hash & (slots.length - 1);
  const hashOf = (numbers: Int32Array | Uint16Array, from: number): number => {
    let hash = FIRST_HASH;
    for (let place = 0; place < width; place += 1) {
      hash = Math.imul(hash ^ (numbers[from + place] as number), 0x01000193);
      hash ^= hash >>> 15;
    }
    return hash;
  };
  const pageOf = (number: number): Uint16Array => pages[number >> PAGE_BITS] as Uint16Array;
  const isAt = (number: number, row: Int32Array): boolean => {
    const page = pageOf(number);
    const from = (number & IN_PAGE) * width;
    for (let place = 0; place < width; place += 1) if (page[from + place] !== row[place]) return false;
    return true;
  };
  /** Makes room for one more; both lists of hashes are there while one is written from the rows. */
  const reach = (): boolean => {
    if (size === pages.length * PAGE_ROWS) {
      if (!memory.take(PAGE_ROWS * width * Uint16Array.BYTES_PER_ELEMENT)) return false;
      pages.push(new Uint16Array(PAGE_ROWS * width));
    }
    if (size < slots.length / 2) return true;
    const length = Math.max(2 * PAGE_ROWS, 2 * slots.length);
    if (!memory.take(length * Int32Array.BYTES_PER_ELEMENT)) return false;
    memory.giveBack(slots.length * Int32Array.BYTES_PER_ELEMENT);
    slots = new Int32Array(length).fill(NONE);
    for (let number = 0; number < size; number += 1) {
      let slot = slotOf(hashOf(pageOf(number), (number & IN_PAGE) * width));
      while (slots[slot] !== NONE) slot = slotOf(slot + 1);
      slots[slot] = number;
    }
    return true;
  };
  return {
    add: (row) => {
      if (!reach()) return FULL;
      let slot = slotOf(hashOf(row, 0));
      for (let at = slots[slot] as number; at !== NONE; at = slots[slot] as number) {
        if (isAt(at, row)) return KNOWN;
        slot = slotOf(slot + 1);
      }
      const number = size;
      slots[slot] = number;
      pageOf(number).set(row, (number & IN_PAGE) * width);
      size += 1;
      return number;
    },
    read: (number, into) => {
      const page = pageOf(number);
      const from = (number & IN_PAGE) * width;
      for (let place = 0; place < width; place += 1) into[place] = page[from + place] as number;
    },
    size: () => size,
  };
}
