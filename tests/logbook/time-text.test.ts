/** Clock times of an evening that goes past midnight. */
import { describe, expect, it } from 'vitest';
import { timeAxis } from '../../renderer/logbook/charts/time-axis.ts';
import { clockBy } from '../../shared-model/logbook/time-text.ts';

/** A railroad whose clock is that of Greenwich. */
const clock = clockBy('2026-11-26T22:30:00.000Z', (ms) =>
  new Date(ms).toISOString().slice(0, 19).replace('T', ' '),
);

describe('the clock time of a second of the evening', () => {
  it('is the time of day alone until midnight', () => {
    expect([0, 90 * 60 - 1].map(clock)).toEqual(['22:30:00', '23:59:59']);
  });

  it('says which day of the evening it is from midnight on', () => {
    expect([90 * 60, 90 * 60 + 86_400].map(clock)).toEqual(['day 2 00:00:00', 'day 3 00:00:00']);
  });

  it('counts days by the calendar of the railroad, not by 24 hours since the opening', () => {
    expect(clock(2 * 3600)).toBe('day 2 00:30:00');
  });
});

describe('the time axis of a chart', () => {
  const frame = { left: 0, right: 800, top: 0, bottom: 100, letterPx: 14 };
  const says = (to: number) =>
    timeAxis({ from: 0, to }, frame, clock).shapes.flatMap((shape) =>
      shape.kind === 'text' ? [shape.says] : [],
    );

  it('says the day where it changes, and nowhere else', () => {
    const words = says(4 * 3600);
    expect(words.filter((one) => one.startsWith('day'))).toEqual([expect.stringMatching(/^day 2 0\d:\d\d$/)]);
  });

  it('says no day in an evening that ends before midnight', () => {
    expect(says(3600).join()).not.toContain('day');
  });
});
