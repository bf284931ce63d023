/** Seeded chance: the same seed always gives the same railroad, so that a failing one can be pinned. */

export interface Chance {
  /** An integer from `low` to `high`, both included. */
  between(low: number, high: number): number;
  /** True about so many times in a hundred. */
  inHundred(percent: number): boolean;
  /** One of a list that is not empty. */
  pick<T>(list: readonly T[]): T;
}

/** Mulberry32 by Tommy Ettinger (public domain): 32 bits of state, enough for test data. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const between = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    between,
    inHundred: (percent) => next() * 100 < percent,
    pick: (list) => {
      const picked = list[between(0, list.length - 1)];
      if (picked === undefined) throw new Error('expected a list that is not empty');
      return picked;
    },
  };
}
