/**
 * The time-distance chart: time to the right, distance down, so that the slope of a line is the speed of its train. A step for each
 * stay from the first throw for it until it is given back, the head's line over them, a lane for the hands and one for the voice,
 * conflicts where they are. Starts are dragged by pointer or by the arrow keys; the arrow keys go through all there is in it, too.
 */
import { scaleLinear } from 'd3-scale';
import { type KeyboardEvent, useId, useMemo, useRef, useState } from 'react';
import { clockText, timeTicks } from '../../shared-model/planning/chart/chart-ticks.ts';
import { evenRows, rowsToScale } from '../../shared-model/planning/chart/row-heights.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { useSize } from '../board/use-sight.ts';
import { useConsole } from '../console/use-console.tsx';
import { HatchPattern } from '../parts/hatch-pattern.tsx';
import { wordsPx } from '../theme/letter-widths.ts';
import { useLetterSizes } from '../theme/use-letter-sizes.ts';
import { type ChartItem, chartItems, itemTowards } from './chart-items.ts';
import { ChartLanes } from './chart-lanes.tsx';
import { ChartNames } from './chart-names.tsx';
import type { Looking } from './chart-option.tsx';
import { ChartStarts } from './chart-starts.tsx';
import { ChartStays } from './chart-stays.tsx';
import type { PlanKept, PlanSeen } from './made-plan.ts';
import { blockName, lengthWords } from './words.ts';

interface TimeChartProps {
  readonly railroad: Railroad;
  readonly plan: PlanKept;
  readonly seen: PlanSeen;
  /** The cab of each train. */
  readonly cabs: ReadonlyMap<string, string>;
  /** All rows alike, and not to scale. */
  readonly isEven: boolean;
  /** The second that is looked at. */
  readonly now: number | null;
  /** Null while the plan is not to be changed. */
  readonly onDrag: ((move: number, start: number) => void) | null;
}

const LANE = 40;
/** Heights of the lowest row, and of rows alike, in letters. */
const LEAST_LETTERS = 1.8;
const EVEN_LETTERS = 2.2;
/** What the rows fill of the window where they need not be taller. */
const ROWS_SHARE = 0.3;
const MOST_ROW = 44;
/** Room for a mark of the time. */
const TICK_LETTERS = 5;
const ARROWS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End'];

/** Width of what is said beside a thing of the chart, in letters. */
const TIP_LETTERS = 20;

interface TipProps {
  readonly says: string;
  readonly width: number;
  readonly left: number;
  /** The row that it stands below, or above. */
  readonly box: readonly [top: number, bottom: number];
  readonly isAbove: boolean;
}

/** What is looked at, in words, beside it. A screen reader has it from the thing itself. */
function Tip({ says, width, left, box: [top, bottom], isAbove }: TipProps) {
  return (
    <p
      className="chart-tip"
      aria-hidden="true"
      style={{ left: Math.max(0, left), top: isAbove ? top : bottom, width }}
      data-above={isAbove || undefined}
    >
      {says}
    </p>
  );
}

export function TimeChart({ railroad, plan, seen, cabs, isEven, now, onDrag }: TimeChartProps) {
  const { chart } = seen;
  const box = useRef<HTMLDivElement>(null);
  const { width } = useSize(box);
  const hatch = useId();
  const letter = useLetterSizes().fine;
  const lengths = useConsole((state) => state.settings.lengths);
  const [looked, setLooked] = useState<string | null>(null);
  // While a hand drags, the time stays where it is under it.
  const [heldEnd, setHeldEnd] = useState<number | null>(null);

  const names = chart.rows.map(
    (block, row) => [blockName(railroad, block), lengthWords(chart.lengthsMm[row] ?? 0, lengths)] as const,
  );
  const left = Math.min(
    width * 0.3,
    Math.max(...names.flat().map((words) => wordsPx(words, letter)), 5 * letter) + 22,
  );
  const right = Math.max(left + 100, width - 12);
  const x = scaleLinear()
    .domain([0, heldEnd ?? chart.end])
    .range([left, right]);
  const least = Math.round(LEAST_LETTERS * letter);
  const heights = isEven
    ? evenRows(chart.rows.length, Math.max(least, EVEN_LETTERS * letter))
    : rowsToScale(
        chart.lengthsMm,
        least,
        Math.min(MOST_ROW * chart.rows.length, ROWS_SHARE * window.innerHeight),
      );
  const rowsEnd = heights.tops.at(-1) ?? 0;
  const lanes = rowsEnd + 6;
  const height = lanes + 2 * LANE + 4;
  const cabOf = (train: string): readonly [number, string] => {
    const index = railroad.document.throttles.findIndex(({ id }) => id === cabs.get(train));
    return [Math.max(0, index), cabs.get(train) ?? ''];
  };

  const items = useMemo(() => chartItems(railroad, plan, seen), [railroad, plan, seen]);
  const byKey = useMemo(() => new Map(items.map((item) => [item.key, item])), [items]);
  const item = looked === null ? undefined : byKey.get(looked);
  const looking: Looking = {
    items: byKey,
    looked: item?.key ?? null,
    idOf: (key) => `${hatch} ${key}`.replaceAll(' ', '-'),
    look: setLooked,
  };
  const rowBox = ({ row }: ChartItem): readonly [top: number, bottom: number] => {
    const top = row < chart.rows.length ? (heights.tops[row] ?? 0) : lanes + (row - chart.rows.length) * LANE;
    return [top, row < chart.rows.length ? (heights.tops[row + 1] ?? 0) : top + LANE];
  };
  const onKeyDown = (event: KeyboardEvent<SVGGElement>) => {
    if (!ARROWS.includes(event.key)) return;
    event.preventDefault();
    const next = itemTowards(items, looking.looked, event.key);
    if (next === undefined) return;
    setLooked(next.key);
    document.getElementById(looking.idOf(next.key))?.scrollIntoView({ block: 'nearest' });
  };
  const tipWidth = TIP_LETTERS * letter;

  return (
    <section
      ref={box}
      className="rehearsal-chart"
      data-zone="chart"
      aria-label={`Time and way of ${plan.name}`}
    >
      <div className="chart-axis" aria-hidden="true">
        <span className="chart-axis-unit">min:s</span>
        {timeTicks(x.domain()[1] ?? 0, Math.max(3, (right - left) / (TICK_LETTERS * letter))).map((at) => (
          <span key={at} className="chart-axis-time" style={{ left: x(at) }}>
            {clockText(at)}
          </span>
        ))}
      </div>
      <div className="chart-body">
        {/* biome-ignore lint/a11y/useSemanticElements: a chart is no fieldset */}
        <svg width={Math.max(1, width)} height={height} role="group" aria-label="Chart">
          <defs>
            <HatchPattern id={hatch} className="chart-wrong-fill" />
          </defs>
          {timeTicks(x.domain()[1] ?? 0, Math.max(3, (right - left) / (TICK_LETTERS * letter))).map((at) => (
            <line key={at} className="chart-grid" x1={x(at)} x2={x(at)} y1={0} y2={height} />
          ))}
          <ChartNames
            chart={chart}
            names={names}
            heights={heights}
            left={left}
            width={width}
            letter={letter}
          />
          <g
            role="listbox"
            tabIndex={0}
            className="chart-things"
            aria-label="Stays, throws, words and conflicts"
            aria-activedescendant={item === undefined ? undefined : looking.idOf(item.key)}
            onKeyDown={onKeyDown}
            onFocus={() => setLooked((before) => before ?? items[0]?.key ?? null)}
            onBlur={() => setLooked(null)}
          >
            <ChartStays chart={chart} looking={looking} cabOf={cabOf} x={x} heights={heights} hatch={hatch} />
            <ChartLanes
              railroad={railroad}
              chart={chart}
              throwSeconds={plan.options.throwSeconds}
              looking={looking}
              x={x}
              top={lanes}
              left={left}
              lane={LANE}
              hatch={hatch}
            />
          </g>
          {now === null ? null : (
            <line className="chart-now" x1={x(now)} x2={x(now)} y1={0} y2={height} data-now={now} />
          )}
          {onDrag === null ? null : (
            <ChartStarts
              railroad={railroad}
              chart={chart}
              cabOf={cabOf}
              placeOf={({ at, row }) => [x(at), heights.yOf(row)]}
              secondsAt={(px) => x.invert(px)}
              right={right}
              letter={letter}
              onDrag={onDrag}
              onHold={(held) => setHeldEnd(held ? chart.end : null)}
            />
          )}
        </svg>
        {item === undefined ? null : (
          <Tip
            says={item.says}
            width={tipWidth}
            left={Math.min(
              x((Math.max(0, item.at) + Math.min(item.till, chart.end)) / 2) - tipWidth / 2,
              width - tipWidth,
            )}
            box={rowBox(item)}
            isAbove={item.row >= chart.rows.length / 2}
          />
        )}
      </div>
    </section>
  );
}
