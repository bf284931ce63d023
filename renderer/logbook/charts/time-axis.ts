/** The time axis that the charts share: seconds of the evening to pixels, with clock times below. */
import type { ChartRange } from '../../../shared-model/logbook/charts/chart-data.ts';
import type { ClockText } from '../../../shared-model/logbook/time-text.ts';
import type { Shape } from './drawing.ts';

const STEPS_SECONDS = [10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 28_800, 86_400];
/** Room for one clock time on the axis, in letters. */
const LABEL_LETTERS = 7;

export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly letterPx: number;
}

export interface TimeAxis {
  readonly x: (at: number) => number;
  readonly shapes: readonly Shape[];
}

/** Seconds between two marks of the axis, such that their times do not touch. */
export function stepSeconds({ from, to }: ChartRange, widthPx: number, letterPx: number): number {
  const most = Math.max(1, Math.floor(widthPx / (LABEL_LETTERS * letterPx)));
  return STEPS_SECONDS.find((step) => (to - from) / step <= most) ?? 604_800;
}

/** @param clock clock time of a second, "20:14:07"; whole minutes are written where the step is one, the day where it changes */
export function timeAxis(range: ChartRange, frame: Frame, clock: ClockText): TimeAxis {
  const { left, right, top, bottom, letterPx } = frame;
  const lasts = Math.max(1, range.to - range.from);
  const x = (at: number) => left + ((at - range.from) / lasts) * (right - left);
  const step = stepSeconds(range, right - left, letterPx);
  const shapes: Shape[] = [];
  let day = '';
  for (let at = Math.ceil(range.from / step) * step; at <= range.to; at += step) {
    shapes.push({
      kind: 'line',
      points: [
        [x(at), top],
        [x(at), bottom],
      ],
      stroke: 'rule',
      width: 1,
    });
    const time = clock(at).slice(-8);
    const dayNow = clock(at).slice(0, -8);
    const changes = dayNow === day ? '' : dayNow;
    day = dayNow;
    shapes.push({
      kind: 'text',
      x: x(at),
      y: bottom + letterPx * 1.2,
      says: `${changes}${step < 60 ? time : time.slice(0, 5)}`,
      fill: 'quiet',
      anchor: at === range.from ? 'start' : 'middle',
    });
  }
  return { x, shapes };
}
