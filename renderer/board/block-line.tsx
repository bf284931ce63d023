/** One block on the board. Drawn again only when its own view, its path or its badges have changed. */
import { memo } from 'react';
import { BadgeMark } from '../parts/badge.tsx';
import { cabLook } from '../theme/cabs.ts';
import { type BlockView, sameView } from './board-view.ts';
import type { Point } from './polyline.ts';

interface BlockLineProps {
  readonly view: BlockView;
  /** The `d` of its track. */
  readonly path: string;
  /** The `d` of the band that can be pressed. */
  readonly reach: string;
  readonly badges: readonly Point[];
  readonly badgePx: number;
  /** The `url(#…)` of the board's hatching. */
  readonly hatch: string;
  /** Whether the keyboard's one stop is here. */
  readonly isStop: boolean;
}

/** Units across a badge's drawing. */
export const BADGE_UNITS = 26;

function DrawnBlock({ view, path, reach, badges, badgePx, hatch, isStop }: BlockLineProps) {
  const { cabIndex, cabMark, state } = view;
  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: an SVG has no button element */}
      <g
        role="button"
        className="board-block"
        data-id={view.id}
        data-state={state}
        data-hue={cabIndex === null ? undefined : cabLook(cabIndex).hue + 1}
        tabIndex={isStop ? 0 : -1}
        aria-label={view.says}
        aria-disabled={!view.pressable}
      >
        <path className="board-reach" d={reach} />
        <path className="board-focus" d={path} />
        <path className="board-focus-inside" d={path} />
        {state === 'open' ? null : <path className="board-casing" d={path} />}
        <path className="board-core" d={path} />
        {state === 'lined' || state === 'disputed' ? <path className="board-inner" d={path} /> : null}
        {state === 'disputed' ? <path className="board-hatching" d={path} stroke={hatch} /> : null}
      </g>
      {/* Beside the button, whose name says the cab once: the badge is repeated along the line. */}
      {cabIndex === null || state === 'open'
        ? null
        : badges.map(([x, y]) => (
            <g key={`${x} ${y}`} transform={`translate(${x} ${y}) scale(${badgePx / BADGE_UNITS})`}>
              <BadgeMark index={cabIndex} mark={cabMark} />
            </g>
          ))}
    </>
  );
}

export const BlockLine = memo(
  DrawnBlock,
  ({ view, badges, ...one }, { view: otherView, badges: otherBadges, ...other }) =>
    sameView(view, otherView) && sameView(badges, otherBadges) && sameView(one, other),
);
