/** One pair of hands (or one voice): when the next piece of work of a fixed length fits between what is fixed already. */
import type { Seconds } from '../../units.ts';

/** Less than this is rounding. */
export const INSTANT: Seconds = 1e-9;

/** The place in an ascending list of the first number above a bound. */
export function firstAbove(list: readonly number[], bound: number): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((list[middle] as number) > bound) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Whether putting `at` at a place of the list leaves at most `most` beginnings in any window; -1: yes, else the time to try next. */
function tooMany(
  begins: readonly number[],
  place: number,
  at: Seconds,
  most: number,
  window: Seconds,
): Seconds | -1 {
  const value = (index: number): number | undefined =>
    index < place ? begins[index] : index === place ? at : begins[index - 1];
  for (let first = Math.max(0, place - most); first <= place; first += 1) {
    const from = value(first) as number;
    const till = value(first + most);
    if (till === undefined || till - from >= window - INSTANT) continue;
    return first + most === place ? from + window : (begins[place] as number);
  }
  return -1;
}

/**
 * The earliest beginning of a piece of work.
 *
 * @param begins beginnings fixed already, ascending; each takes `takes`
 * @param from not before
 * @param most at most so many beginnings in any window of `window` seconds; Infinity: no bound
 * @returns the beginning; Infinity where there is never one
 */
export function earliestSlot(
  begins: readonly number[],
  from: Seconds,
  takes: Seconds,
  most: number,
  window: Seconds,
): Seconds {
  if (most < 1) return Number.POSITIVE_INFINITY;
  for (let at = from; ; ) {
    const place = firstAbove(begins, at - takes + INSTANT);
    const next = begins[place];
    if (next !== undefined && next < at + takes - INSTANT) {
      at = next + takes;
      continue;
    }
    if (most === Number.POSITIVE_INFINITY) return at;
    const after = firstAbove(begins, at);
    const later = tooMany(begins, after, at, most, window);
    if (later === -1) return at;
    at = Math.max(later, at + INSTANT);
  }
}

/** Puts a number into an ascending list. */
export function insertSorted(list: number[], value: number): void {
  list.splice(firstAbove(list, value), 0, value);
}

/** One pair of hands whose work only grows: it remembers where no further piece of work can begin, and passes over that. */
export interface HandsQueue {
  /** Fixes a piece of work at the earliest beginning not before `from`, and gives that; Infinity where there is never one. */
  book(from: Seconds): Seconds;
  clear(): void;
}

/**
 * @param takes one piece of work
 * @param most at most so many beginnings in any window of `window` seconds
 */
export function handsQueue(takes: Seconds, most: number, window: Seconds): HandsQueue {
  const begins: number[] = [];
  // No beginning is free from `fullFrom` up to, not including, `fullTill`: what is fixed is never given up again.
  let fullFrom = 0;
  let fullTill = 0;
  return {
    book: (from) => {
      const isIn = from >= fullFrom && from <= fullTill;
      const at = earliestSlot(begins, isIn ? fullTill : from, takes, most, window);
      if (at === Number.POSITIVE_INFINITY) return at;
      insertSorted(begins, at);
      if (isIn) fullTill = at;
      else if (at - from > fullTill - fullFrom) [fullFrom, fullTill] = [from, at];
      return at;
    },
    clear: () => {
      begins.length = 0;
      fullFrom = 0;
      fullTill = 0;
    },
  };
}
