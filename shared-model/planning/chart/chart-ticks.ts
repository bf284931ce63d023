/** Where the marks of a time axis stand: at round numbers of seconds, and not closer than they can be read. */
import type { Seconds } from '../../units.ts';

const STEPS: readonly Seconds[] = [5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600];

/**
 * @param end of the axis
 * @param most how many marks there is room for
 */
export function timeTicks(end: Seconds, most: number): readonly Seconds[] {
  const step = STEPS.find((one) => end / one <= most) ?? Math.max(1, Math.ceil(end / most));
  return Array.from({ length: Math.floor(end / step) + 1 }, (_, index) => index * step);
}

/** Seconds as minutes and seconds: "2:07". */
export function clockText(seconds: Seconds): string {
  const whole = Math.round(seconds);
  const sign = whole < 0 ? '-' : '';
  return `${sign}${Math.floor(Math.abs(whole) / 60)}:${String(Math.abs(whole) % 60).padStart(2, '0')}`;
}
