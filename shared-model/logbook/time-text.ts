/** Times of an evening as they are printed: how long, and when, by the clock on the wall and by the railroad's. */
import { railroadMinutes } from '../session/orders/desk-orders.ts';
import type { ClockNow } from '../session/state.ts';
import type { Seconds } from '../units.ts';

const two = (value: number): string => String(value).padStart(2, '0');

/** Hours, minutes and whole seconds: "1:02:03". */
export function durationText(seconds: Seconds): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** The clock time of a second of the evening, "20:14:07"; the caller knows where the railroad is, and so its clock. */
export type ClockText = (at: Seconds) => string;

const DAY_MS = 86_400_000;

/**
 * The clock time of each second of an evening, and past midnight which day of the evening it is.
 *
 * @param openedAt when it was opened, as it is recorded (ISO 8601)
 * @param local a moment, in milliseconds, by the clock of the railroad: "2026-11-26 20:14:07"
 * @returns "20:14:07"; after the first midnight "day 2 00:12:03"
 */
export function clockBy(openedAt: string, local: (ms: number) => string): ClockText {
  const from = Date.parse(openedAt);
  const midnight = (moment: string): number => Date.parse(moment.slice(0, 10));
  const firstMidnight = midnight(local(from));
  return (at) => {
    const moment = local(from + at * 1000);
    const days = Math.round((midnight(moment) - firstMidnight) / DAY_MS);
    const time = moment.slice(11);
    return days === 0 ? time : `day ${days + 1} ${time}`;
  };
}

/**
 * Railroad time at a second of the evening.
 *
 * @param clocks how the railroad's clock stood and ran from each `from` on, in order; null: no railroad time from then on
 * @returns "6:42"; empty where no ratio was set then
 */
export function railroadTimeText(
  clocks: readonly { readonly from: Seconds; readonly clock: ClockNow | null }[],
  at: Seconds,
): string {
  // By halves: a long evening has its clock set thousands of times, and a time for each of as many rows.
  let [low, high] = [0, clocks.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((clocks[middle]?.from ?? 0) <= at) low = middle + 1;
    else high = middle;
  }
  const clock = clocks[low - 1]?.clock ?? null;
  if (clock === null) return '';
  const minutes = Math.floor(railroadMinutes(clock, at));
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}`;
}
