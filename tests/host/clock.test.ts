/** Seconds of an evening: from the monotonic clock, never back, and over a crash by what the wall clock makes believable. */
import { expect, test } from 'vitest';
import { eveningClock } from '../../electron/host/clock.ts';

const OPENED = '2026-11-25T19:00:00.000Z';
const opened = Date.parse(OPENED);

/** A clock that a test turns. */
function turnedClock(wall: number) {
  const now = { wall, monotonic: 5_000 };
  return { now, clock: { wall: () => now.wall, monotonic: () => now.monotonic } };
}

test('time goes by the monotonic clock, whatever is done to the wall clock', () => {
  const { now, clock } = turnedClock(opened);
  const seconds = eveningClock(clock, OPENED, 0);
  expect(seconds()).toBe(0);
  now.monotonic += 1_500;
  now.wall -= 3_600_000;
  expect(seconds()).toBe(1.5);
});

test('after a crash the minutes in which nobody looked count', () => {
  const { now, clock } = turnedClock(opened + 600_000);
  const seconds = eveningClock(clock, OPENED, 420.25);
  expect(seconds()).toBe(600);
  now.monotonic += 250;
  expect(seconds()).toBe(600.25);
});

test.each([
  ['the wall clock was set back', -1],
  ['the wall clock stands before the last entry', 100],
  ['the evening was left open over a day', 100 * 3600],
])('the last entry is gone on from where %s', (_why, sinceOpened) => {
  const { clock } = turnedClock(opened + sinceOpened * 1000);
  expect(eveningClock(clock, OPENED, 420.25)()).toBe(420.25);
});

test('it never goes back', () => {
  const { now, clock } = turnedClock(opened);
  const seconds = eveningClock(clock, OPENED, 10);
  now.monotonic += 2_000;
  expect(seconds()).toBe(12);
  now.monotonic -= 1_000;
  expect(seconds()).toBe(12);
});
