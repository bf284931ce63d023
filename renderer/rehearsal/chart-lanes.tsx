/** Below the blocks: what the hands do and how much of each minute they are at it, and what the voice says. */
import type { ScaleLinear } from 'd3-scale';
import type { Chart, ChartLane } from '../../shared-model/planning/chart/chart-model.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { PlanKept } from './made-plan.ts';
import { faultWords, throwWords, trainWords } from './words.ts';

interface ChartLanesProps {
  readonly railroad: Railroad;
  readonly plan: PlanKept;
  readonly chart: Chart;
  readonly x: ScaleLinear<number, number>;
  readonly top: number;
  readonly left: number;
  /** Height of a lane. */
  readonly lane: number;
  readonly hatch: string;
}

const MINUTE = 60;

export function ChartLanes({ railroad, plan, chart, x, top, left, lane, hatch }: ChartLanesProps) {
  const { answer, options } = plan;
  const wrongIn = (name: ChartLane) => chart.conflicts.filter(({ lanes }) => lanes.includes(name));
  const yOf: Readonly<Record<ChartLane, number>> = { hands: top, voice: top + lane };
  return (
    <>
      {(['hands', 'voice'] as const).map((name) => (
        <g key={name}>
          <line className="chart-lane" x1={0} x2={x(chart.end)} y1={yOf[name]} y2={yOf[name]} />
          <text className="chart-words" x={left - 8} y={yOf[name] + lane * 0.62} textAnchor="end">
            {name}
          </text>
          {chart[name].map(({ at, till, of }) => (
            <rect
              key={of}
              className="chart-work"
              x={x(Math.max(0, at))}
              width={Math.max(2, x(till) - x(Math.max(0, at)) - 1)}
              y={yOf[name] + 17}
              height={lane - 20}
            >
              <title>
                {name === 'hands'
                  ? `${clockText(at)}: ${answer.throws
                      .slice(of, of + 1)
                      .map(throwWords)
                      .join('')}`
                  : `${clockText(at)}: words for ${trainWords(railroad, answer.moves[of]?.train ?? '')}`}
              </title>
            </rect>
          ))}
          {wrongIn(name).map(({ fault, at }, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: two faults may say the same of one moment
            <g key={`${index} ${fault.says}`} className="chart-conflict">
              <title>{faultWords(railroad, fault)}</title>
              <rect
                x={x(at ?? 0) - 6}
                width={12}
                y={yOf[name] + 15}
                height={lane - 16}
                fill={`url(#${hatch})`}
              />
            </g>
          ))}
        </g>
      ))}
      {chart.handsLoad.map((count, minute) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a minute is its place
        <text key={minute} className="chart-words" x={x(minute * MINUTE) + 3} y={top + 14}>
          {Math.round((100 * count * options.throwSeconds) / MINUTE)} %
        </text>
      ))}
    </>
  );
}
