/** The joint standings that a search has seen, each once, in one growing array: rows of numbers found again by hash. */

export interface JointTable {
  /** The number of a row; `added` tells whether it was new. */
  add(row: Int32Array): { readonly number: number; readonly added: boolean };
  /** Copies a row out. */
  read(number: number, into: Int32Array): void;
  size(): number;
}

const FIRST_ROWS = 1024;

/** @param width numbers in a row */
export function jointTable(width: number): JointTable {
  let rows = new Int32Array(FIRST_ROWS * width);
  let slots = new Int32Array(FIRST_ROWS * 2).fill(-1);
  let size = 0;

  const hashOf = (row: Int32Array, offset: number): number => {
    let hash = 0x811c9dc5;
    for (let place = 0; place < width; place += 1) {
      hash = Math.imul(hash ^ (row[offset + place] as number), 0x01000193);
      hash ^= hash >>> 15;
    }
    return hash >>> 0;
  };
  const isAt = (number: number, row: Int32Array): boolean => {
    for (let place = 0; place < width; place += 1)
      if (rows[number * width + place] !== row[place]) return false;
    return true;
  };
  const grow = (): void => {
    const more = new Int32Array(rows.length * 2);
    more.set(rows);
    rows = more;
    slots = new Int32Array(slots.length * 2).fill(-1);
    for (let number = 0; number < size; number += 1) {
      let slot = hashOf(rows, number * width) % slots.length;
      while (slots[slot] !== -1) slot = (slot + 1) % slots.length;
      slots[slot] = number;
    }
  };
  return {
    add: (row) => {
      let slot = hashOf(row, 0) % slots.length;
      for (let at = slots[slot] as number; at !== -1; at = slots[slot] as number) {
        if (isAt(at, row)) return { number: at, added: false };
        slot = (slot + 1) % slots.length;
      }
      const number = size;
      slots[slot] = number;
      rows.set(row, number * width);
      size += 1;
      if (size * width >= rows.length) grow();
      return { number, added: true };
    },
    read: (number, into) => {
      for (let place = 0; place < width; place += 1) into[place] = rows[number * width + place] as number;
    },
    size: () => size,
  };
}
