/**
 * What bounds the memory of a search: everything that grows asks before it grows, and stops where the answer is no. Numbers in flat
 * arrays are counted as they are; objects by what an engine of 64 bits takes for them, which `npm run bench -- memory` holds against
 * the memory of a process.
 */

/** Bytes counted against a limit. */
export interface Memory {
  /** Whether so many bytes more may be had; they are counted then. */
  take(bytes: number): boolean;
  giveBack(bytes: number): void;
  /** Bytes that are had now. */
  taken(): number;
  /** Most bytes that were had at one time. */
  peak(): number;
}

const MEGABYTE = 1024 * 1024;

/** What one question to the planner keeps at most, unless it is asked otherwise; what a thread needs besides is some tens of megabytes. */
export const USUAL_MEGABYTES = 256;
export const USUAL_BYTES = USUAL_MEGABYTES * MEGABYTE;

export function memoryOf(limitBytes = USUAL_BYTES): Memory {
  let taken = 0;
  let peak = 0;
  return {
    take: (bytes) => {
      if (taken + bytes > limitBytes) return false;
      taken += bytes;
      peak = Math.max(peak, taken);
      return true;
    },
    giveBack: (bytes) => {
      taken -= bytes;
    },
    taken: () => taken,
    peak: () => peak,
  };
}

/** A part of a memory, that is given back as a whole. */
export interface MemoryPart extends Memory {
  giveAllBack(): void;
}

export function partOf(whole: Memory): MemoryPart {
  const own = memoryOf(Number.POSITIVE_INFINITY);
  const giveBack = (bytes: number): void => {
    own.giveBack(bytes);
    whole.giveBack(bytes);
  };
  return {
    ...own,
    take: (bytes) => whole.take(bytes) && own.take(bytes),
    giveBack,
    giveAllBack: () => giveBack(own.taken()),
  };
}

/** Pieces in which small things are counted, and how much of a piece is always left for what is being made. */
const PIECE_BYTES = 64 * 1024;
const AHEAD_BYTES = 16 * 1024;

/**
 * Counts many small things, a piece of memory ahead of them.
 *
 * @returns a function told of the bytes of each thing made; false when nothing more may be made. What made it false was still had.
 */
export function countedAhead(memory: Memory): (bytes: number) => boolean {
  let left = 0;
  return (bytes) => {
    left -= bytes;
    while (left < AHEAD_BYTES) {
      if (!memory.take(PIECE_BYTES)) return false;
      left += PIECE_BYTES;
    }
    return true;
  };
}
