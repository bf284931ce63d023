/** Below the blocks: what the hands do and how much of each minute they are at it, and what the voice says. */
import type { ScaleLinear } from 'd3-scale';
import type { Chart, ChartLane } from '../../shared-model/planning/chart/chart-model.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { workKey } from './chart-items.ts';
import { ChartOption, type Looking } from './chart-option.tsx';
import { faultWords } from './words.ts';

interface ChartLanesProps {
  readonly railroad: Railroad;
  readonly chart: Chart;
  /** Seconds that a throw takes. */
  readonly throwSeconds: number;
  readonly looking: Looking;
  readonly x: ScaleLinear<number, number>;
  readonly top: number;
  readonly left: number;
  /** Height of a lane. */
  readonly lane: number;
  readonly hatch: string;
}

const MINUTE = 60;

export function ChartLanes({
  railroad,
  chart,
  throwSeconds,
  looking,
  x,
  top,
  left,
  lane,
  hatch,
}: ChartLanesProps) {
  const wrongIn = (name: ChartLane) => chart.conflicts.filter(({ lanes }) => lanes.includes(name));
  const yOf: Readonly<Record<ChartLane, number>> = { hands: top, voice: top + lane };
  return (
    <>
      {(['hands', 'voice'] as const).map((name) => (
        <g key={name}>
          <line className="chart-lane" x1={0} x2={x(chart.end)} y1={yOf[name]} y2={yOf[name]} />
          <text className="chart-words" x={left - 14} y={yOf[name] + lane * 0.62} textAnchor="end">
            {name}
          </text>
          {chart[name].map(({ at, till, of }) => (
            <ChartOption key={of} id={workKey(name, of)} looking={looking}>
              <rect
                className="chart-work"
                x={x(Math.max(0, at))}
                width={Math.max(2, x(till) - x(Math.max(0, at)) - 1)}
                y={yOf[name] + 17}
                height={lane - 20}
              />
            </ChartOption>
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
          {Math.round((100 * count * throwSeconds) / MINUTE)} %
        </text>
      ))}
    </>
  );
}
