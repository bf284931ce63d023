/** The badge by which a move's start is dragged: by pointer, or by the arrow keys while it has the focus. */
import { type KeyboardEvent, type PointerEvent, useState } from 'react';
import type { ChartStart } from '../../shared-model/planning/chart/chart-model.ts';
import { clockText } from '../../shared-model/planning/chart/chart-ticks.ts';
import { BadgeMark } from '../parts/badge.tsx';

interface StartHandleProps {
  readonly start: ChartStart;
  readonly name: string;
  /** On which side of the badge the name stands; null where it has no room. */
  readonly nameAt: 'left' | 'right' | null;
  /** The train's cab among the throttles, and what is written in its badge. */
  readonly cab: readonly [index: number, mark: string];
  readonly place: readonly [number, number];
  readonly end: number;
  /** One of all starts is come to by Tab; the arrow keys up and down go from one to the next. */
  readonly isFirst: boolean;
  readonly onFocus: () => void;
  readonly onStep: (by: -1 | 1) => void;
  /** The second at a place of the chart, from its left edge. */
  readonly secondsAt: (px: number) => number;
  readonly onDrag: (at: number) => void;
  /** Told when a pointer takes hold of it, and lets it go. */
  readonly onHold: (held: boolean) => void;
}

/** Seconds that an arrow key drags by, and with Shift or by page. */
const KEY_SECONDS = 1;
const PAGE_SECONDS = 10;

const BY_KEY: Readonly<Record<string, number>> = {
  ArrowLeft: -KEY_SECONDS,
  ArrowRight: KEY_SECONDS,
  PageDown: -PAGE_SECONDS,
  PageUp: PAGE_SECONDS,
};

export function StartHandle({
  start,
  name,
  nameAt,
  cab: [index, mark],
  place,
  end,
  isFirst,
  onFocus,
  onStep,
  secondsAt,
  onDrag,
  onHold,
}: StartHandleProps) {
  const [dragging, setDragging] = useState(false);
  const says = `${name} starts at ${clockText(start.at)}`;
  const to = (at: number) => onDrag(Math.max(0, at));
  const under = (event: PointerEvent): number => {
    const chart = event.currentTarget.closest('svg')?.getBoundingClientRect();
    return Math.round(secondsAt(event.clientX - (chart?.left ?? 0)));
  };
  const hold = (held: boolean) => {
    setDragging(held);
    onHold(held);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const by = BY_KEY[event.key];
    if (by !== undefined) {
      event.preventDefault();
      to(start.at + by * (event.shiftKey && event.key.startsWith('Arrow') ? PAGE_SECONDS : 1));
    } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      onStep(event.key === 'ArrowUp' ? -1 : 1);
    }
  };
  return (
    <g
      role="slider"
      tabIndex={isFirst ? 0 : -1}
      className="chart-start"
      data-move={start.move}
      data-dragging={dragging || undefined}
      aria-label={`Start of ${name}, move ${start.move + 1}`}
      aria-valuemin={0}
      aria-valuemax={Math.round(end)}
      aria-valuenow={Math.round(start.at)}
      aria-valuetext={says}
      transform={`translate(${place[0]} ${place[1]})`}
      onFocus={onFocus}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        hold(true);
      }}
      onPointerMove={(event) => {
        if (dragging) to(under(event));
      }}
      onPointerUp={() => hold(false)}
      onPointerCancel={() => hold(false)}
    >
      <title>{says}</title>
      <rect x={-22} y={-22} width={44} height={44} className="chart-reach" />
      <g transform="scale(0.93)">
        <BadgeMark index={index} mark={mark} />
      </g>
      {nameAt === null ? null : (
        <text
          className="chart-name"
          x={nameAt === 'right' ? 14 : -14}
          y={-8}
          textAnchor={nameAt === 'right' ? 'start' : 'end'}
        >
          {name}
        </text>
      )}
      {dragging ? (
        <text className="chart-name" x={0} y={30} textAnchor="middle">
          {clockText(start.at)}
        </text>
      ) : null}
    </g>
  );
}
