/** The time-distance chart of what really happened: time to the right, distance along the railroad downwards, a line a train. */
import type { EveningCharts, TrainLine } from '../../../shared-model/logbook/charts/chart-data.ts';
import type { ClockText } from '../../../shared-model/logbook/time-text.ts';
import { type Drawing, hueOf, type Paint, type Shape, textWidth } from './drawing.ts';
import { timeAxis } from './time-axis.ts';

export interface PlaceAt {
  readonly name: string;
  readonly distanceMm: number;
}

interface RunningOptions {
  readonly places: readonly PlaceAt[];
  readonly cabs: readonly string[];
  readonly train: (id: string) => string;
  readonly clock: ClockText;
  readonly width: number;
  readonly letterPx: number;
}

const ROWS = 18;
/** So that lines are told apart without their colours: a form of line for each of the six hues. */
const DASHES = [undefined, '9 3', '3 3', '12 3 3 3', '6 6', '2 5'] as const;
/** A train's name comes again after so much of the width. */
const NAME_EVERY = 0.22;

/** Places down the left side, moved apart where they would touch. */
function placeLabels(
  places: readonly PlaceAt[],
  y: (mm: number) => number,
  options: RunningOptions,
): Shape[] {
  const { width, letterPx } = options;
  let lowest = Number.NEGATIVE_INFINITY;
  return places
    .toSorted((a, b) => a.distanceMm - b.distanceMm)
    .flatMap(({ name, distanceMm }): Shape[] => {
      const at = y(distanceMm);
      const below = Math.max(at + letterPx * 0.35, lowest + letterPx * 1.1);
      lowest = below;
      return [
        {
          kind: 'line',
          points: [
            [textWidth(name, letterPx) + 6, at],
            [width, at],
          ],
          stroke: 'rule',
          width: 1,
        },
        { kind: 'text', x: 0, y: below, says: name, fill: 'text', anchor: 'start' },
      ];
    });
}

/** Left, top, right and bottom in pixels. */
type Box = readonly [number, number, number, number];

/** A train's name beside a point, where no other name stands: above it, else below, else further above; none where there is no room. */
function nameAt(
  says: string,
  x: number,
  y: number,
  taken: Box[],
  { width, letterPx }: RunningOptions,
): Shape[] {
  const long = textWidth(says, letterPx);
  const left = Math.min(x + 3, width - long);
  const base = [y - 4, y + letterPx, y - 4 - letterPx * 1.1].find((bottom) =>
    taken.every(([l, t, r, b]) => left >= r || left + long <= l || bottom <= t || bottom - letterPx >= b),
  );
  if (base === undefined) return [];
  taken.push([left, base - letterPx, left + long, base]);
  return [{ kind: 'text', x: left, y: base, says, fill: 'text', anchor: 'start', bold: true }];
}

export function runningChart(charts: EveningCharts, options: RunningOptions): Drawing {
  const { places, cabs, width, letterPx, clock } = options;
  const left = Math.max(...places.map(({ name }) => textWidth(name, letterPx)), 40) + letterPx;
  const top = letterPx;
  const bottom = top + ROWS * letterPx * 1.6;
  const points = charts.lines.flatMap((line) => line.points.map(({ distanceMm }) => distanceMm));
  const farthest = Math.max(1, ...points, ...places.map(({ distanceMm }) => distanceMm));
  const y = (mm: number) => top + (mm / farthest) * (bottom - top);
  const axis = timeAxis(charts.range, { left, right: width - 4, top, bottom, letterPx }, clock);
  const shapes: Shape[] = [...axis.shapes, ...placeLabels(places, y, options)];
  const named = new Map<string, number>();
  const labels: Shape[] = [];
  const taken: Box[] = [];
  const drawn = (line: TrainLine) =>
    line.points.map(({ at, distanceMm }) => [axis.x(at), y(distanceMm)] as const);
  for (const line of charts.lines) {
    const index = line.cab === null ? -1 : cabs.indexOf(line.cab);
    const stroke: Paint = index < 0 ? 'track' : `cab-${hueOf(index)}`;
    const dash = index < 0 ? '1 3' : DASHES[index % DASHES.length];
    const way = drawn(line);
    shapes.push({ kind: 'line', points: way, stroke: 'casing', width: 4 });
    shapes.push({ kind: 'line', points: way, stroke, width: 2.5, ...(dash === undefined ? {} : { dash }) });
    for (const [x, at] of way) {
      const last = named.get(line.train);
      if (last !== undefined && x - last < NAME_EVERY * width) continue;
      const name = nameAt(options.train(line.train), x, at, taken, options);
      if (name.length > 0) named.set(line.train, x);
      labels.push(...name);
    }
  }
  return { width, height: bottom + letterPx * 1.8, letterPx, shapes: [...shapes, ...labels] };
}
