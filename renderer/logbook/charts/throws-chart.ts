/** Throws in each minute, beside what the hands can do. */
import type { EveningCharts } from '../../../shared-model/logbook/charts/chart-data.ts';
import type { ClockText } from '../../../shared-model/logbook/time-text.ts';
import type { Drawing, Shape } from './drawing.ts';
import { timeAxis } from './time-axis.ts';

interface ThrowsOptions {
  readonly clock: ClockText;
  /** Time of one throw: 60 seconds hold so many. */
  readonly throwSeconds: number;
  readonly width: number;
  readonly letterPx: number;
}

/** Throws by whole minutes of the evening, those of the range: [minute, throws]. */
export function throwsByMinute({ range, throws }: EveningCharts): readonly (readonly [number, number])[] {
  const first = Math.floor(range.from / 60);
  const counts = Array.from({ length: Math.max(1, Math.ceil(range.to / 60) - first) }, () => 0);
  for (const at of throws) {
    const minute = Math.min(counts.length - 1, Math.floor(at / 60) - first);
    counts[minute] = (counts[minute] ?? 0) + 1;
  }
  return counts.map((count, index) => [first + index, count]);
}

const ROWS = 8;

export function throwsChart(charts: EveningCharts, options: ThrowsOptions): Drawing {
  const { width, letterPx, clock, throwSeconds } = options;
  const left = letterPx * 3;
  const top = letterPx;
  const bottom = top + ROWS * letterPx * 1.4;
  const axis = timeAxis(charts.range, { left, right: width - 4, top, bottom, letterPx }, clock);
  const minutes = throwsByMinute(charts);
  const most = throwSeconds === 0 ? Number.POSITIVE_INFINITY : 60 / throwSeconds;
  const busiest = Math.max(...minutes.map(([, throws]) => throws));
  const highest = Math.max(4, busiest, Number.isFinite(most) ? Math.min(most, busiest * 2) : 0);
  const y = (throws: number) => bottom - (throws / highest) * (bottom - top);
  const shapes: Shape[] = [...axis.shapes];
  for (const at of [0, Math.round(highest / 2), Math.round(highest)])
    shapes.push(
      {
        kind: 'line',
        points: [
          [left, y(at)],
          [width, y(at)],
        ],
        stroke: 'rule',
        width: 1,
      },
      {
        kind: 'text',
        x: left - 6,
        y: y(at) + letterPx * 0.35,
        says: String(at),
        fill: 'quiet',
        anchor: 'end',
      },
    );
  for (const [minute, throws] of minutes) {
    const x = axis.x(Math.max(charts.range.from, minute * 60));
    const end = axis.x(Math.min(charts.range.to, (minute + 1) * 60));
    if (throws > 0)
      shapes.push({
        kind: 'rect',
        x: x + 0.5,
        y: y(throws),
        width: Math.max(1, end - x - 1),
        height: bottom - y(throws),
        fill: throws > most ? 'wrong' : 'text',
      });
  }
  if (most <= highest)
    shapes.push(
      {
        kind: 'line',
        points: [
          [left, y(most)],
          [width, y(most)],
        ],
        stroke: 'wrong',
        width: 2,
        dash: '8 4',
      },
      {
        kind: 'text',
        x: width - 4,
        y: y(most) - 4,
        says: `all the hands can do: ${Math.floor(most)} a minute`,
        fill: 'text',
        anchor: 'end',
      },
    );
  return { width, height: bottom + letterPx * 1.8, letterPx, shapes };
}
