/** Time as the host has it: a wall clock to name moments by, and a monotonic one to measure with. */

export interface Clock {
  /** Milliseconds since 1970. */
  wall(): number;
  /** Milliseconds from any fixed moment; never goes back. */
  monotonic(): number;
}

export const systemClock: Clock = { wall: () => Date.now(), monotonic: () => performance.now() };

/** The wall clock's moment, RFC 3339 in UTC. */
export const rfc3339 = (clock: Clock): string => new Date(clock.wall()).toISOString();

/** A pause longer than this is not taken for a crash in mid-evening: the wall clock was set, or the evening left open. In seconds. */
const LONGEST_ABSENCE = 12 * 3600;

/** Seconds since an evening was opened; never goes back, whatever is done to the wall clock meanwhile. */
export type EveningClock = () => number;

/**
 * The clock of an evening that goes on from an entry.
 *
 * The time while the console was away counts, since trains went on running; but only if the wall clock makes it believable.
 *
 * @param openedAt RFC 3339
 * @param lastAt seconds of the last entry
 */
export function eveningClock(clock: Clock, openedAt: string, lastAt: number): EveningClock {
  const sinceOpened = (clock.wall() - Date.parse(openedAt)) / 1000;
  const believable = sinceOpened > lastAt && sinceOpened - lastAt <= LONGEST_ABSENCE;
  const base = believable ? sinceOpened : lastAt;
  const start = clock.monotonic();
  let latest = lastAt;
  return () => {
    const now = Math.round((base + (clock.monotonic() - start) / 1000) * 1000) / 1000;
    latest = Math.max(latest, now);
    return latest;
  };
}
