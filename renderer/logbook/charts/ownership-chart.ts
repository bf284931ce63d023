/** Who owned which block when: a row a block, in the cab's colour and with its number, the state in the form of the bar. */
import type { EveningCharts, OwnedSpan } from '../../../shared-model/logbook/charts/chart-data.ts';
import type { ClockText } from '../../../shared-model/logbook/time-text.ts';
import { type Drawing, hatched, hueOf, type Paint, type Shape, textWidth } from './drawing.ts';
import { timeAxis } from './time-axis.ts';

export interface Row {
  readonly id: string;
  readonly label: string;
}

interface OwnershipOptions {
  readonly rows: readonly Row[];
  /** The throttles in their order: it gives a cab its hue. */
  readonly cabs: readonly string[];
  readonly train: (id: string | null) => string;
  readonly clock: ClockText;
  readonly width: number;
  readonly letterPx: number;
}

const MARK_PX = 8;

/** The bar of a span: solid when occupied, double when lined, a dashed outline when pledged, hatched when disputed, as on the board. */
function bar(
  span: OwnedSpan,
  x: number,
  y: number,
  width: number,
  height: number,
  paint: Paint,
): readonly Shape[] {
  const box = { kind: 'rect', x, y, width, height } as const;
  switch (span.state) {
    case 'occupied':
      return [{ ...box, fill: paint, stroke: 'casing' }];
    case 'lined': {
      const third = height / 3;
      return [
        { ...box, height: third, fill: paint, stroke: 'casing' },
        { ...box, y: y + 2 * third, height: third, fill: paint, stroke: 'casing' },
      ];
    }
    case 'pledged':
      return [{ ...box, y: y + height / 3, height: height / 3, stroke: 'text', dash: '3 2' }];
    case 'disputed':
      return [{ ...box, stroke: 'wrong' }, ...hatched(x, y, width, height)];
  }
}

/** The number of the cab on a bar, and the train's name where there is room. */
function names(
  span: OwnedSpan,
  x: number,
  y: number,
  width: number,
  options: OwnershipOptions,
): readonly Shape[] {
  const index = span.cab === null ? -1 : options.cabs.indexOf(span.cab);
  if (span.state !== 'occupied' || index < 0 || span.cab === null) return [];
  const { letterPx } = options;
  const room = width - letterPx * 1.6;
  if (room < 0)
    return width < textWidth(span.cab, letterPx) ? [] : [numberOn(span.cab, x + width / 2, y, index)];
  const name = options.train(span.train);
  const badge = {
    kind: 'badge',
    x: x + letterPx * 0.8,
    y,
    scale: letterPx / 20,
    index,
    mark: span.cab,
  } as const;
  return textWidth(name, letterPx) > room
    ? [badge]
    : [
        badge,
        {
          kind: 'text',
          x: x + letterPx * 1.8,
          y: y + letterPx * 0.35,
          says: name,
          fill: `on-cab-${hueOf(index)}`,
          anchor: 'start',
        },
      ];
}

const numberOn = (mark: string, x: number, y: number, index: number): Shape => ({
  kind: 'text',
  x,
  y: y + 5,
  says: mark,
  fill: `on-cab-${hueOf(index)}`,
  anchor: 'middle',
  bold: true,
});

export function ownershipChart(charts: EveningCharts, options: OwnershipOptions): Drawing {
  const { rows, cabs, width, letterPx, clock } = options;
  const rowPx = letterPx * 1.9;
  const left = Math.max(...rows.map(({ label }) => textWidth(label, letterPx)), 40) + letterPx;
  const top = MARK_PX * 2;
  const bottom = top + rows.length * rowPx;
  const axis = timeAxis(charts.range, { left, right: width - 4, top, bottom, letterPx }, clock);
  const shapes: Shape[] = [...axis.shapes];
  rows.forEach(({ label }, index) => {
    const y = top + index * rowPx;
    shapes.push({
      kind: 'line',
      points: [
        [0, y],
        [width, y],
      ],
      stroke: 'rule',
      width: 1,
    });
    shapes.push({ kind: 'text', x: 0, y: y + rowPx * 0.68, says: label, fill: 'text', anchor: 'start' });
  });
  const rowOf = new Map(rows.map(({ id }, index) => [id, index]));
  for (const span of charts.owned) {
    const row = rowOf.get(span.block);
    if (row === undefined) continue;
    const x = axis.x(span.from);
    const long = Math.max(1, axis.x(span.to) - x);
    const y = top + row * rowPx + 3;
    const index = span.cab === null ? -1 : cabs.indexOf(span.cab);
    const paint: Paint = index < 0 ? 'track' : `cab-${hueOf(index)}`;
    shapes.push(...bar(span, x, y, long, rowPx - 6, paint));
    shapes.push(...names(span, x, y + (rowPx - 6) / 2, long, options));
  }
  for (const { at, outcome } of charts.marks) {
    const x = axis.x(at);
    shapes.push(
      outcome === 'alarm'
        ? { kind: 'rect', x: x - 2, y: 0, width: 4, height: MARK_PX * 1.5, fill: 'wrong' }
        : {
            kind: 'line',
            points: [
              [x, MARK_PX],
              [x, MARK_PX * 2],
            ],
            stroke: 'text',
            width: 1.5,
          },
    );
  }
  return { width, height: bottom + letterPx * 1.8, letterPx, shapes };
}
