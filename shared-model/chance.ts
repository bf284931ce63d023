/** Seeded chance for searches that draw: the same seed gives the same draws, on every machine, live and in replay. */

/** Draws a number from 0 up to, not including, 1. */
export type Draw = () => number;

/** Mulberry32 by Tommy Ettinger (public domain): 32 bits of state, plenty for a search. */
export function drawsFrom(seed: number): Draw {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** A list in another order. */
export function shuffled<T>(list: readonly T[], draw: Draw): T[] {
  const mixed = [...list];
  for (let place = mixed.length - 1; place > 0; place -= 1) {
    const other = Math.floor(draw() * (place + 1));
    const kept = mixed[place] as T;
    mixed[place] = mixed[other] as T;
    mixed[other] = kept;
  }
  return mixed;
}
