/** A moment in words: the time, and the day unless it was today. */

/** @param at and `now` in milliseconds of the calendar */
export function whenText(at: number, now: number): string {
  const moment = new Date(at);
  const time = moment.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hour12: false });
  return moment.toDateString() === new Date(now).toDateString()
    ? time
    : `${moment.toLocaleDateString([], { day: 'numeric', month: 'short' })} ${time}`;
}
