/** When each train waited and for what; and below, how much of all waiting each block caused. */
import type { EveningCharts, WaitSpan } from '../../../shared-model/logbook/charts/chart-data.ts';
import { type ClockText, durationText } from '../../../shared-model/logbook/time-text.ts';
import { type Drawing, hueOf, type Paint, type Shape, textWidth } from './drawing.ts';
import { timeAxis } from './time-axis.ts';

interface WaitsOptions {
  readonly cabs: readonly string[];
  readonly train: (id: string) => string;
  /** "block 3, which No. 7 had". */
  readonly cause: (thing: string | null, owner: string | null) => string;
  readonly block: (id: string | null) => string;
  readonly clock: ClockText;
  readonly width: number;
  readonly letterPx: number;
}

/** Seconds of waiting by block, the most first; null is the dispatcher, and what lies in no block. */
export function waitingByBlock({
  waits,
}: EveningCharts): readonly (readonly [block: string | null, seconds: number])[] {
  const sums = new Map<string | null, number>();
  for (const { block, from, to } of waits) sums.set(block, (sums.get(block) ?? 0) + to - from);
  return [...sums].toSorted((a, b) => b[1] - a[1]);
}

/** Room that is taken in a row, from and to in pixels. */
type Taken = readonly [number, number];
const isFree = (taken: readonly Taken[], from: number, to: number): boolean =>
  taken.every(([begins, ends]) => to <= begins || from >= ends);

/** Bars that are so near to each other have no room for words between them. */
const NEAR_PX = 8;

/** Where a bar and those that lie near it begin and end together. */
function runOf(bars: readonly { readonly x: number; readonly end: number }[], index: number): Taken {
  let [first, last] = [index, index];
  while (first > 0 && (bars[first]?.x ?? 0) - (bars[first - 1]?.end ?? 0) < NEAR_PX) first -= 1;
  while (last < bars.length - 1 && (bars[last + 1]?.x ?? 0) - (bars[last]?.end ?? 0) < NEAR_PX) last += 1;
  return [bars[first]?.x ?? 0, bars[last]?.end ?? 0];
}

/** The waits of one train: every bar, and the words of as many as there is room for, the longest waits first. */
function rowOf(
  waits: readonly WaitSpan[],
  y: number,
  frame: RowFrame,
  options: WaitsOptions,
): readonly Shape[] {
  const { letterPx, cabs, width } = options;
  const bars = waits.map((wait) => {
    const x = frame.x(wait.from);
    return { wait, x, end: x + Math.max(3, frame.x(wait.to) - x) };
  });
  const taken: Taken[] = bars.map(({ x, end }) => [x - 2, end + 2]);
  const shapes: Shape[] = bars.map(({ wait, x, end }) => {
    const index = wait.cab === null ? -1 : cabs.indexOf(wait.cab);
    const fill: Paint = index < 0 ? 'track' : `cab-${hueOf(index)}`;
    return { kind: 'rect', x, y: y + 3, width: end - x, height: frame.rowPx - 6, fill, stroke: 'casing' };
  });
  const byLength = bars.map((bar, index) => ({ ...bar, run: runOf(bars, index) }));
  for (const { wait, x, end, run } of byLength.toSorted((a, b) => b.end - b.x - (a.end - a.x))) {
    const says = `${durationText(wait.to - wait.from)} ${options.cause(wait.thing, wait.owner)}`;
    const long = textWidth(says, letterPx);
    const places = [end + 4, x - 4 - long, run[1] + 4, run[0] - 4 - long];
    const at = places.find(
      (left) => left >= frame.left && left + long <= width && isFree(taken, left, left + long),
    );
    if (at === undefined) continue;
    taken.push([at, at + long]);
    shapes.push({ kind: 'text', x: at, y: y + frame.rowPx * 0.65, says, fill: 'text', anchor: 'start' });
  }
  return shapes;
}

interface RowFrame {
  readonly x: (at: number) => number;
  readonly left: number;
  readonly rowPx: number;
}

/** Letters that the words after a bar take at most. */
const SHARE_LETTERS = 22;

/** How much of all waiting each block caused, a bar a block. */
function shareRows(
  shares: readonly (readonly [block: string | null, seconds: number])[],
  top: number,
  { left, rowPx }: RowFrame,
  { block, letterPx, width }: WaitsOptions,
): readonly Shape[] {
  const all = shares.reduce((sum, [, seconds]) => sum + seconds, 0);
  return shares.flatMap(([id, seconds], row): Shape[] => {
    const y = top + row * rowPx;
    const part = all === 0 ? 0 : seconds / all;
    const long = Math.max(1, part * (width - left - textWidth(' '.repeat(SHARE_LETTERS), letterPx)));
    const words = { kind: 'text', y: y + rowPx * 0.65, fill: 'text', anchor: 'start' } as const;
    return [
      { ...words, x: 0, says: block(id) },
      { kind: 'rect', x: left, y: y + 3, width: long, height: rowPx - 6, fill: 'text' },
      { ...words, x: left + long + 6, says: `${Math.round(part * 100)} %, ${durationText(seconds)}` },
    ];
  });
}

export function waitsChart(charts: EveningCharts, options: WaitsOptions): Drawing {
  const { width, letterPx, clock } = options;
  const rowPx = letterPx * 2.1;
  const trains = [...new Set(charts.waits.map(({ train }) => train))];
  const shares = waitingByBlock(charts);
  const labels = [...trains.map(options.train), ...shares.map(([block]) => options.block(block))];
  const left = Math.max(...labels.map((label) => textWidth(label, letterPx)), 40) + letterPx;
  const top = letterPx * 0.5;
  const bottom = top + trains.length * rowPx;
  const axis = timeAxis(charts.range, { left, right: width - 4, top, bottom, letterPx }, clock);
  const frame = { x: axis.x, left, rowPx };
  const rows = trains.flatMap((train, row): Shape[] => {
    const y = top + row * rowPx;
    const label = { kind: 'text', x: 0, y: y + rowPx * 0.65, says: options.train(train) } as const;
    const waits = charts.waits.filter((one) => one.train === train);
    return [{ ...label, fill: 'text', anchor: 'start' }, ...rowOf(waits, y, frame, options)];
  });
  const under = bottom + letterPx * 3;
  return {
    width,
    height: under + shares.length * rowPx + 4,
    letterPx,
    shapes: [...axis.shapes, ...rows, ...shareRows(shares, under, frame, options)],
  };
}
