/** The badge by which a move's start is dragged: by pointer, or by the arrow keys while it has the focus. */
import { type PointerEvent, useState } from 'react';
import type { ChartStart } from '../../shared-model/planning/chart/chart-model.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { BadgeMark } from '../parts/badge.tsx';

interface StartHandleProps {
  readonly start: ChartStart;
  readonly name: string;
  /** The train's cab among the throttles, and what is written in its badge. */
  readonly cab: number;
  readonly mark: string;
  readonly place: readonly [number, number];
  readonly end: number;
  /** The second at a place of the chart, from its left edge. */
  readonly secondsAt: (px: number) => number;
  readonly onDrag: (at: number) => void;
}

/** Seconds that an arrow key drags by; with Shift ten times as many. */
const KEY_SECONDS = 1;

export function StartHandle({ start, name, cab, mark, place, end, secondsAt, onDrag }: StartHandleProps) {
  const [dragging, setDragging] = useState(false);
  const says = `${name} starts at ${clockText(start.at)}`;
  const to = (at: number) => onDrag(Math.max(0, at));
  const under = (event: PointerEvent): number => {
    const chart = event.currentTarget.closest('svg')?.getBoundingClientRect();
    return Math.round(secondsAt(event.clientX - (chart?.left ?? 0)));
  };
  return (
    <g
      role="slider"
      tabIndex={0}
      className="chart-start"
      data-move={start.move}
      data-dragging={dragging || undefined}
      aria-label={`Start of ${name}, move ${start.move + 1}`}
      aria-valuemin={0}
      aria-valuemax={Math.round(end)}
      aria-valuenow={Math.round(start.at)}
      aria-valuetext={says}
      transform={`translate(${place[0]} ${place[1]})`}
      onKeyDown={(event) => {
        const by = { ArrowLeft: -KEY_SECONDS, ArrowRight: KEY_SECONDS }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        to(start.at + by * (event.shiftKey ? 10 : 1));
      }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        setDragging(true);
      }}
      onPointerMove={(event) => {
        if (dragging) to(under(event));
      }}
      onPointerUp={() => setDragging(false)}
      onPointerCancel={() => setDragging(false)}
    >
      <title>{says}</title>
      <rect x={-22} y={-22} width={44} height={44} className="chart-reach" />
      <g transform="scale(0.72)">
        <BadgeMark index={cab} mark={mark} />
      </g>
      <text className="chart-name" x={12} y={-8}>
        {name}
      </text>
    </g>
  );
}
