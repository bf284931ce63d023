/** How long work takes that others on the machine do not make longer. */
import { performance } from 'node:perf_hooks';

/**
 * Starts a watch: milliseconds since, by the clock or by the processor, whichever is less. By the clock a busy machine makes all work
 * longer; by the processor the collector's helper threads are counted besides.
 */
export function workWatch(): () => number {
  const began = performance.now();
  const before = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(before);
    return Math.min(performance.now() - began, (user + system) / 1000);
  };
}
