/** When others have each resource: for every one an ascending list of beginnings and ends in turn, none overlapping. */

export type BusyTimes = number[];

const FOREVER = Number.POSITIVE_INFINITY;

/** The earliest moment from `at` on when nobody has it. */
export function freeFrom(busy: BusyTimes, at: number): number {
  for (let place = 0; place < busy.length; place += 2) {
    if ((busy[place + 1] as number) <= at) continue;
    return (busy[place] as number) <= at ? freeFrom(busy, busy[place + 1] as number) : at;
  }
  return at;
}

/** When the next one has it after a moment at which it is free. */
export function nextBusy(busy: BusyTimes, at: number): number {
  for (let place = 0; place < busy.length; place += 2)
    if ((busy[place + 1] as number) > at) return busy[place] as number;
  return FOREVER;
}

/** Adds a time that overlaps none of those there. */
export function addBusy(busy: BusyTimes, from: number, till: number): void {
  let place = busy.length;
  while (place > 0 && (busy[place - 2] as number) > from) place -= 2;
  busy.splice(place, 0, from, till);
}
