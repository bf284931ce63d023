/** Rows of whole numbers, four bytes each, in pages: nothing is copied when they grow. */
import type { Memory } from '../memory.ts';

export interface IntPages {
  /** Makes room up to a row, those before it being there; false where there is no memory for it. */
  reach(row: number): boolean;
  get(row: number, column: number): number;
  set(row: number, column: number, value: number): void;
}

const PAGE_BITS = 10;
const PAGE_ROWS = 1 << PAGE_BITS;
const IN_PAGE = PAGE_ROWS - 1;

/** @param memory what they have of it stays taken until whoever gave it takes it back */
export function intPages(columns: number, memory: Memory): IntPages {
  const pages: Int32Array[] = [];
  const pageOf = (row: number): Int32Array => pages[row >> PAGE_BITS] as Int32Array;
  return {
    reach: (row) => {
      if (row < pages.length * PAGE_ROWS) return true;
      const length = PAGE_ROWS * columns;
      if (!memory.take(length * Int32Array.BYTES_PER_ELEMENT)) return false;
      pages.push(new Int32Array(length));
      return true;
    },
    get: (row, column) => pageOf(row)[(row & IN_PAGE) * columns + column] as number,
    set: (row, column, value) => {
      pageOf(row)[(row & IN_PAGE) * columns + column] = value;
    },
  };
}
