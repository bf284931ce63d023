/** The distance axis: the name of each block at its row, how long it is where there is room, and a break where a row is taller than to scale. */
import type { Chart } from '../../shared-model/planning/chart/chart-model.ts';
import type { RowHeights } from '../../shared-model/planning/chart/row-heights.ts';
import { wordsPx } from '../theme/letter-widths.ts';

interface ChartNamesProps {
  readonly chart: Chart;
  /** The name and the length of each row's block, in words. */
  readonly names: readonly (readonly [name: string, length: string])[];
  readonly heights: RowHeights;
  /** Width of the axis, and of the whole chart. */
  readonly left: number;
  readonly width: number;
  /** Size of its letters. */
  readonly letter: number;
}

/** Words cut short where they would be wider than that. */
function cutTo(words: string, most: number, letter: number): string {
  if (wordsPx(words, letter) <= most) return words;
  let length = words.length;
  while (length > 1 && wordsPx(`${words.slice(0, length)}…`, letter) > most) length -= 1;
  return `${words.slice(0, length).trimEnd()}…`;
}

export function ChartNames({ chart, names, heights, left, width, letter }: ChartNamesProps) {
  const { tops, stretched } = heights;
  return chart.rows.map((block, row) => {
    const [top = 0, bottom = 0] = [tops[row], tops[row + 1]];
    const [name = '', length = ''] = names[row] ?? [];
    const middle = (top + bottom) / 2;
    const twoLines = length !== '' && bottom - top >= 2.7 * letter;
    return (
      <g key={block}>
        <line className="chart-grid" x1={0} x2={width} y1={top} y2={top} />
        <text
          className="chart-words chart-block"
          x={left - 14}
          y={middle + (twoLines ? -0.2 : 0.36) * letter}
          textAnchor="end"
        >
          {cutTo(name, left - 18, letter)}
          <title>{name}</title>
        </text>
        {twoLines ? (
          <text className="chart-words" x={left - 14} y={middle + 1.05 * letter} textAnchor="end">
            {length}
          </text>
        ) : null}
        {stretched[row] === true ? (
          <path
            className="chart-break"
            d={`M ${left - 9} ${middle - 6} l 5 3 -5 3 5 3 -5 3`}
            data-row={block}
          />
        ) : null}
      </g>
    );
  });
}
