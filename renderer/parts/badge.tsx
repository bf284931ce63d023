/** The badge of a cab: its number in the cab's own outline and hue. */
import { cabLook } from '../theme/cabs.ts';
import { BADGE_NUMBER_SIZE, OUTLINE_PATHS } from '../theme/outlines.ts';
import './badge.css';

interface BadgeProps {
  /** Which throttle of the railroad it is, counted from 0: it gives outline and hue. */
  readonly index: number;
  /** What is written in it: the throttle's id, as it is marked on the dials. */
  readonly mark: string;
  /** Side in CSS pixels; the size of desk letters and a little more, unless said. */
  readonly size?: number;
  /** What a screen reader says; nothing when the name stands beside it. */
  readonly label?: string;
}

/** The drawing alone, 26 units across round 0 0, for use inside another SVG. */
export function BadgeMark({ index, mark }: Pick<BadgeProps, 'index' | 'mark'>) {
  const { outline, hue } = cabLook(index);
  const { path, numberY } = OUTLINE_PATHS[outline];
  return (
    <g className="badge" data-hue={hue + 1}>
      <path className="badge-outline" d={path} />
      <text
        className="badge-number"
        y={numberY}
        fontSize={mark.length > 1 ? BADGE_NUMBER_SIZE * 0.75 : BADGE_NUMBER_SIZE}
      >
        {mark}
      </text>
    </g>
  );
}

export function Badge({ index, mark, size, label }: BadgeProps) {
  const sides = size === undefined ? {} : { width: size, height: size };
  return (
    <svg
      className="badge-box"
      viewBox="-14 -14 28 28"
      {...sides}
      role="img"
      aria-hidden={label === undefined}
      aria-label={label}
    >
      <BadgeMark index={index} mark={mark} />
    </svg>
  );
}
