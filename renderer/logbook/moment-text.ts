/** Clock times of an evening, by the clock of this machine. */
import { type ClockText, clockBy } from '../../shared-model/logbook/time-text.ts';

/** The clock time of each second of an evening that was opened then: "20:14:07", past midnight "day 2 00:12:03". */
export const clockOf = (openedAt: string): ClockText =>
  clockBy(openedAt, (ms) => new Date(ms).toLocaleString('sv-SE'));

/** The time of day of a second of the evening, to the second: entries of one minute have to be told apart. */
export const momentText = (openedAt: string, seconds: number): string => clockOf(openedAt)(seconds);
