/** The drop against the run, a line for the gauge and its neighbours, and where the limit of five percent lies. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { DROP_LIMIT_PERCENT, gaugeText } from '../../shared-model/power/wire.ts';
import type { RunUnit } from './run-unit.ts';
import type { WireFigures } from './wire-draft.ts';
import { dropWith, mainPiece, neighbours } from './wire-result.ts';

const SIZE = { width: 620, height: 300, left: 56, right: 84, top: 14, bottom: 44 } as const;
/** The run asked for lies in the middle of the chart, or a little right of it. */
const ROOM = 1.8;

interface DropChartProps {
  readonly figures: WireFigures;
  readonly unit: RunUnit;
}

export function DropChart({ figures, unit }: DropChartProps) {
  const { awg, run: runMm } = mainPiece(figures);
  const percentAt = (gauge: number, run: number) =>
    (dropWith(figures, { awg: gauge, run }) / figures.volts) * 100;
  const here = percentAt(awg, runMm);
  const x = scaleLinear([0, (runMm / unit.mm) * ROOM], [SIZE.left, SIZE.width - SIZE.right]);
  const top = Math.max(DROP_LIMIT_PERCENT * 1.6, here * 1.6);
  const y = scaleLinear([0, top], [SIZE.height - SIZE.bottom, SIZE.top]);
  const [, end = 0] = x.domain();
  const path = line<readonly [number, number]>(
    ([run]) => x(run),
    ([, percent]) => y(percent),
  );
  const straight = (gauge: number) => {
    const first = percentAt(gauge, 0);
    const slope = percentAt(gauge, unit.mm) - first;
    // A drop grows evenly with the run: the line ends at the frame, wherever it meets it first.
    const last = Math.min(end, (top - first) / slope);
    const at: readonly [number, number] = [last, first + last * slope];
    return { gauge, at, d: path([[0, first], at]) ?? '' };
  };
  const limit = y(DROP_LIMIT_PERCENT);
  return (
    <svg
      className="drop-chart"
      viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
      role="img"
      aria-label={`Drop in percent against the run, for ${neighbours(awg).map(gaugeText).join(', ')}; the table beside it has the figures`}
    >
      {x.ticks(6).map((tick) => (
        <g key={tick}>
          <path className="chart-rule" d={`M${x(tick)} ${SIZE.top}V${SIZE.height - SIZE.bottom}`} />
          <text x={x(tick)} y={SIZE.height - SIZE.bottom + 18} textAnchor="middle">
            {tick}
          </text>
        </g>
      ))}
      {y.ticks(5).map((tick) => (
        <g key={tick}>
          <path className="chart-rule" d={`M${SIZE.left} ${y(tick)}H${SIZE.width - SIZE.right}`} />
          <text x={SIZE.left - 6} y={y(tick)} textAnchor="end" dominantBaseline="central">
            {tick}
          </text>
        </g>
      ))}
      <text x={(SIZE.left + SIZE.width - SIZE.right) / 2} y={SIZE.height - 6} textAnchor="middle">
        run one way, {unit.name}
      </text>
      <text x={12} y={SIZE.top + 8} className="chart-percent">
        %
      </text>
      <path className="chart-limit" d={`M${SIZE.left} ${limit}H${SIZE.width - SIZE.right}`} />
      <text className="chart-limit-name" x={SIZE.left + 6} y={limit - 6}>
        {DROP_LIMIT_PERCENT} % limit
      </text>
      {neighbours(awg)
        .map(straight)
        .map(({ gauge, at, d }) => (
          <g key={gauge} data-chosen={gauge === awg || undefined}>
            <path className="chart-line" d={d} />
            <text x={x(at[0]) + 6} y={y(at[1])} dominantBaseline="central">
              {gaugeText(gauge)}
            </text>
          </g>
        ))}
      <circle className="chart-here" cx={x(runMm / unit.mm)} cy={y(Math.min(here, top))} r="6" />
    </svg>
  );
}
