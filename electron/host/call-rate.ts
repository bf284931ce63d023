/** Bounds how often something may be asked: a page gone wrong must not keep the host from its work. */

/** Most calls of one name in a second; scrubbing through an evening makes sixty. */
export const MOST_CALLS_A_SECOND = 240;

const SECOND_MS = 1000;

/**
 * @param now milliseconds, monotonic
 * @returns a function that counts a call of a name, and tells whether it is still within the bound
 */
export function callRate(now: () => number, most: number = MOST_CALLS_A_SECOND): (name: string) => boolean {
  const seconds = new Map<string, { began: number; calls: number }>();
  return (name) => {
    const current = seconds.get(name);
    if (current === undefined || now() - current.began >= SECOND_MS) {
      seconds.set(name, { began: now(), calls: 1 });
      return true;
    }
    current.calls += 1;
    return current.calls <= most;
  };
}
