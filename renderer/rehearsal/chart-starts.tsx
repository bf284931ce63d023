/** The starts of a chart that can be dragged. Tab comes to one of them; up and down go to the others. */
import { useRef, useState } from 'react';
import type { Chart, ChartStart } from '../../shared-model/planning/chart/chart-model.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { wordsPx } from '../theme/letter-widths.ts';
import { StartHandle } from './start-handle.tsx';
import { namedStarts } from './start-names.ts';
import { trainWords } from './words.ts';

interface ChartStartsProps {
  readonly railroad: Railroad;
  readonly chart: Chart;
  readonly cabOf: (train: string) => readonly [index: number, mark: string];
  readonly placeOf: (start: ChartStart) => readonly [x: number, y: number];
  readonly secondsAt: (px: number) => number;
  readonly right: number;
  /** Size of the letters. */
  readonly letter: number;
  readonly onDrag: (move: number, at: number) => void;
  readonly onHold: (held: boolean) => void;
}

export function ChartStarts({
  railroad,
  chart,
  cabOf,
  placeOf,
  secondsAt,
  right,
  letter,
  onDrag,
  onHold,
}: ChartStartsProps) {
  const [first, setFirst] = useState(0);
  const group = useRef<SVGGElement>(null);
  const wordsOf = ({ train }: ChartStart): number => wordsPx(trainWords(railroad, train), letter) + 4;
  const named = namedStarts(chart.starts, placeOf, wordsOf, right, 1.2 * letter);
  return (
    <g ref={group}>
      {chart.starts.map((start, place) => {
        const name = named.get(start.move);
        return (
          <StartHandle
            key={start.move}
            start={start}
            name={trainWords(railroad, start.train)}
            nameAt={name === undefined ? null : name.isLeft ? 'left' : 'right'}
            cab={cabOf(start.train)}
            place={placeOf(start)}
            end={chart.end}
            isFirst={place === Math.min(first, chart.starts.length - 1)}
            onFocus={() => setFirst(place)}
            onStep={(by) => group.current?.querySelectorAll<SVGGElement>('.chart-start')[place + by]?.focus()}
            secondsAt={secondsAt}
            onDrag={(at) => onDrag(start.move, at)}
            onHold={onHold}
          />
        );
      })}
    </g>
  );
}
