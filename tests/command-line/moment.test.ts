/** Moments of an evening as they are typed. */
import { expect, test } from 'vitest';
import { makeMoment, parseMoment } from '../../electron/command-line/moment.ts';

test.each([
  ['0', 0],
  ['95', 95],
  ['95.5', 95.5],
  ['1:35', 95],
  ['01:35', 95],
  ['0:01:35', 95],
  ['2:00:00.25', 7200.25],
  ['', null],
  ['-5', null],
  ['1:60', null],
  ['1:5', null],
  ['1:2:3', null],
  ['soon', null],
])('"%s" is %s seconds', (text, seconds) => {
  expect(parseMoment(text)).toBe(seconds);
});

test('what is printed can be typed', () => {
  for (const seconds of [0, 59, 60, 3599, 3600, 86_399])
    expect(parseMoment(makeMoment(seconds))).toBe(seconds);
});
