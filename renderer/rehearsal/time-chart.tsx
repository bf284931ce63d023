/**
 * The time-distance chart: a row a block, a bar for each stay from the first throw for it until it is given back, the head's line over
 * them, a lane for the hands and one for the voice, conflicts where they are. Starts are dragged by pointer or by the arrow keys.
 */
import { scaleLinear } from 'd3-scale';
import { useId, useRef } from 'react';
import { type Chart, conflictMarks } from '../../shared-model/planning/chart/chart-model.ts';
import { clockText, timeTicks } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { useSize } from '../board/use-sight.ts';
import { cabLook } from '../theme/cabs.ts';
import { useLetterSizes } from '../theme/use-letter-sizes.ts';
import { ChartLanes } from './chart-lanes.tsx';
import type { PlanKept } from './made-plan.ts';
import { StartHandle } from './start-handle.tsx';
import { blockName, faultWords, trainWords } from './words.ts';

interface TimeChartProps {
  readonly railroad: Railroad;
  readonly plan: PlanKept;
  readonly chart: Chart;
  /** The cab of each train. */
  readonly cabs: ReadonlyMap<string, string>;
  /** The second that is looked at. */
  readonly now: number | null;
  /** Null while the plan is not to be changed. */
  readonly onDrag: ((move: number, start: number) => void) | null;
}

const ROW = 30;
const LANE = 40;
const AXIS = 28;

export function TimeChart({ railroad, plan, chart, cabs, now, onDrag }: TimeChartProps) {
  const box = useRef<HTMLDivElement>(null);
  const { width } = useSize(box);
  const hatch = useId();
  const letter = useLetterSizes().fine;
  const names = chart.rows.map((block) => blockName(railroad, block));
  const left = Math.min(width * 0.3, Math.max(...names.map((name) => name.length), 6) * letter * 0.66 + 12);
  const x = scaleLinear()
    .domain([0, chart.end])
    .range([left, Math.max(left + 100, width - 12)]);
  const y = (row: number): number => AXIS + row * ROW;
  const lanes = y(chart.rows.length) + 6;
  const height = lanes + 2 * LANE + 4;
  const cabOf = (train: string): number =>
    Math.max(
      0,
      railroad.document.throttles.findIndex(({ id }) => id === cabs.get(train)),
    );
  const hueOf = (train: string): number => cabLook(cabOf(train)).hue + 1;

  return (
    <section
      ref={box}
      className="rehearsal-chart"
      data-zone="chart"
      aria-label={`Time and way of ${plan.name}`}
    >
      {/* biome-ignore lint/a11y/useSemanticElements: a chart is no fieldset */}
      <svg width={Math.max(1, width)} height={height} role="group" aria-label="Chart">
        <defs>
          <pattern
            id={hatch}
            width="8"
            height="8"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <rect width="3" height="8" className="chart-wrong-fill" />
          </pattern>
        </defs>
        {timeTicks(chart.end, Math.max(3, (width - left) / 70)).map((at) => (
          <g key={at}>
            <line className="chart-grid" x1={x(at)} x2={x(at)} y1={AXIS - 4} y2={height} />
            <text className="chart-words" x={x(at)} y={AXIS - 10} textAnchor="middle">
              {clockText(at)}
            </text>
          </g>
        ))}
        {names.map((name, row) => (
          <g key={name}>
            <line className="chart-grid" x1={0} x2={width} y1={y(row)} y2={y(row)} />
            <text className="chart-words" x={left - 8} y={y(row) + ROW * 0.65} textAnchor="end">
              {name}
            </text>
          </g>
        ))}
        {chart.bars.map((bar) => (
          <g key={`${bar.train} ${bar.block} ${bar.headIn}`} data-hue={hueOf(bar.train)}>
            <rect
              className="chart-blocked"
              x={x(bar.from)}
              width={Math.max(0, x(bar.till) - x(bar.from))}
              y={y(bar.row) + 3}
              height={ROW - 6}
            />
            <rect
              className="chart-occupied"
              x={x(bar.headIn)}
              width={Math.max(1, x(bar.tailOut) - x(bar.headIn))}
              y={y(bar.row) + 8}
              height={ROW - 16}
            />
          </g>
        ))}
        {chart.lines.flatMap(({ train, pieces }) =>
          pieces.map((piece) => {
            const points = piece.map(({ at, row }) => `${x(at)},${y(row)}`).join(' ');
            return (
              <g key={`${train} ${piece[0]?.at} ${piece[0]?.row}`}>
                <polyline className="chart-line-casing" points={points} />
                <polyline className="chart-line" points={points} />
              </g>
            );
          }),
        )}
        {conflictMarks(chart).map(({ key, at, row, faults }) => (
          <g key={key} className="chart-conflict">
            <title>{faults.map((fault) => faultWords(railroad, fault)).join(' ')}</title>
            <rect x={x(at) - 7} y={y(row) + 1} width={14} height={ROW - 2} fill={`url(#${hatch})`} />
            <path d={`M ${x(at)} ${y(row) + 3} l 9 16 h -18 z`} className="chart-warn" />
            <text x={x(at)} y={y(row) + 18} textAnchor="middle" className="chart-warn-mark">
              !
            </text>
          </g>
        ))}
        <ChartLanes
          railroad={railroad}
          plan={plan}
          chart={chart}
          x={x}
          top={lanes}
          left={left}
          lane={LANE}
          hatch={hatch}
        />
        {now === null ? null : (
          <line className="chart-now" x1={x(now)} x2={x(now)} y1={AXIS - 6} y2={height} data-now={now} />
        )}
        {(onDrag === null ? [] : chart.starts).map((start) => (
          <StartHandle
            key={start.move}
            start={start}
            name={trainWords(railroad, start.train)}
            cab={cabOf(start.train)}
            mark={cabs.get(start.train) ?? ''}
            place={[x(start.at), y(start.row)]}
            end={chart.end}
            secondsAt={(px) => x.invert(px)}
            onDrag={(at) => onDrag?.(start.move, at)}
          />
        ))}
      </svg>
    </section>
  );
}
