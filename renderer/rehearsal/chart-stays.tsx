/** What the trains do in the chart: each stay a step in its block's row, the lines of the heads over them, conflicts where they are. */
import type { ScaleLinear } from 'd3-scale';
import { type Chart, chartJumps, conflictMarks } from '../../shared-model/planning/chart/chart-model.ts';
import type { RowHeights } from '../../shared-model/planning/chart/row-heights.ts';
import { BadgeMark } from '../parts/badge.tsx';
import { cabLook } from '../theme/cabs.ts';
import { conflictKey, stayKey } from './chart-items.ts';
import { ChartOption, type Looking } from './chart-option.tsx';

interface ChartStaysProps {
  readonly chart: Chart;
  readonly looking: Looking;
  /** The cab of a train among the throttles, and what is written in its badge. */
  readonly cabOf: (train: string) => readonly [index: number, mark: string];
  readonly x: ScaleLinear<number, number>;
  readonly heights: RowHeights;
  readonly hatch: string;
}

/** Side of a badge as it is drawn, and the least and the largest of those in a stay, in parts of it. */
const BADGE = 26;
const LEAST_BADGE = 0.65;
const MOST_BADGE = 0.93;
/** The mark of a conflict stands near the top of its row. */
const warnTop = (height: number): number => Math.max(0, Math.min(6, height / 2 - 9));
/** A conflict is never marked narrower than this. */
const MARK = 14;

export function ChartStays({ chart, looking, cabOf, x, heights, hatch }: ChartStaysProps) {
  const { tops, yOf } = heights;
  const rowBox = (row: number): { readonly y: number; readonly height: number } => ({
    y: (tops[row] ?? 0) + 2,
    height: (tops[row + 1] ?? 0) - (tops[row] ?? 0) - 4,
  });
  return (
    <>
      {chart.bars.map((bar, place) => {
        const { y, height } = rowBox(bar.row);
        const [index] = cabOf(bar.train);
        const [from, till] = [x(bar.headIn), x(bar.tailOut)];
        const key = stayKey(place);
        return (
          <ChartOption key={key} id={key} looking={looking} hue={cabLook(index).hue + 1}>
            <rect
              className="chart-blocked"
              x={x(bar.from)}
              width={Math.max(0, x(bar.till) - x(bar.from))}
              y={y}
              height={height}
            />
            <rect
              className="chart-occupied"
              x={from}
              width={Math.max(1, till - from)}
              y={y + 3}
              height={Math.max(1, height - 6)}
            />
          </ChartOption>
        );
      })}
      <g className="chart-lines">
        {chartJumps(chart).map(({ train, from, to }) => (
          <line
            key={`${train} ${from.at} ${from.row}`}
            className="chart-jump"
            x1={x(from.at)}
            x2={x(to.at)}
            y1={yOf(from.row)}
            y2={yOf(to.row)}
          />
        ))}
        {chart.lines.flatMap(({ train, pieces }) =>
          pieces.map((piece) => {
            const points = piece.map(({ at, row }) => `${x(at)},${yOf(row)}`).join(' ');
            return (
              <g key={`${train} ${piece[0]?.at} ${piece[0]?.row}`}>
                <polyline className="chart-line-casing" points={points} />
                <polyline className="chart-line" points={points} />
              </g>
            );
          }),
        )}
      </g>
      {conflictMarks(chart).map((mark) => {
        const { y, height } = rowBox(mark.row);
        const at = x(mark.at);
        return (
          <ChartOption
            key={conflictKey(mark)}
            id={conflictKey(mark)}
            looking={looking}
            className="chart-conflict"
          >
            <rect
              x={at - 2}
              width={Math.max(MARK, x(mark.till) - at)}
              y={y}
              height={height}
              fill={`url(#${hatch})`}
            />
          </ChartOption>
        );
      })}
      {/* No names: what they stand on says itself. */}
      <g className="chart-lines">
        {chart.bars.map((bar, place) => {
          const { y, height } = rowBox(bar.row);
          const scale = Math.min(MOST_BADGE, height / BADGE);
          const side = (scale * BADGE) / 2;
          const till = x(bar.tailOut);
          if (scale < LEAST_BADGE || till - x(bar.headIn) < 2 * side + 4) return null;
          const [index, mark] = cabOf(bar.train);
          const middle = y + Math.min(height / 2, side + 4);
          return (
            <g key={stayKey(place)} transform={`translate(${till - side - 2} ${middle}) scale(${scale})`}>
              <BadgeMark index={index} mark={mark} />
            </g>
          );
        })}
        {conflictMarks(chart).map((mark) => {
          const { y, height } = rowBox(mark.row);
          return (
            <g
              key={mark.key}
              className="chart-warning"
              transform={`translate(${x(mark.at)} ${y + warnTop(height)})`}
            >
              <path d="M 0 0 l 9 16 h -18 z" className="chart-warn" />
              <text y={15} textAnchor="middle" className="chart-warn-mark">
                !
              </text>
            </g>
          );
        })}
      </g>
    </>
  );
}
