/** A moment of an evening as it is typed: seconds since it was opened, or hours, minutes and seconds. */
import { type ClockText, clockBy } from '../../shared-model/logbook/time-text.ts';

/** Reads "95", "1:35" or "0:01:35" as seconds; null where it is none of these. */
export function parseMoment(text: string): number | null {
  if (/^\d+(\.\d+)?$/.test(text)) return Number(text);
  const parts = /^(?:(\d+):)?([0-5]?\d):([0-5]\d(?:\.\d+)?)$/.exec(text);
  if (parts === null) return null;
  const [, hours, minutes, seconds] = parts;
  return Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(seconds);
}

/** Seconds since an evening was opened as "h:mm:ss". */
export function makeMoment(seconds: number): string {
  const whole = Math.floor(seconds);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

const local = (ms: number): string => new Date(ms).toLocaleString('sv-SE');

/** The day on which an evening was opened, by the clock of this machine: "2026-11-26". */
export const dayOf = (openedAt: string): string => local(Date.parse(openedAt)).slice(0, 10);

/** The clock time of each second of an evening, by the clock of this machine: "20:14:07", past midnight "day 2 00:12:03". */
export const clockOf = (openedAt: string): ClockText => clockBy(openedAt, local);
