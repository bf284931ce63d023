/** A turnout (or a crossing with slips): a ring on its points, with a blade that lies on the leg that is set. */
import { memo } from 'react';
import { REACH_PX } from './block-paths.ts';
import { sameView, type TurnoutView } from './board-view.ts';
import { linePath, type Point, type Polyline } from './polyline.ts';

interface TurnoutMarkProps {
  readonly view: TurnoutView;
  readonly at: Point;
  /** The ways through it as it stands, each from arm to arm over its middle, in pixels. */
  readonly blades: readonly Polyline[];
  readonly letterPx: number;
  readonly isStop: boolean;
}

function DrawnTurnout({ view, at: [x, y], blades, letterPx, isStop }: TurnoutMarkProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: an SVG has no button element
    <g
      role="button"
      className="board-turnout"
      data-id={view.id}
      data-locked={view.locked || undefined}
      data-next={view.next || undefined}
      tabIndex={isStop ? 0 : -1}
      aria-label={view.says}
      aria-disabled={!view.pressable}
    >
      <circle className="board-reach" cx={x} cy={y} r={REACH_PX} />
      <circle className="board-focus" cx={x} cy={y} r={letterPx * 0.8} />
      <path className="board-blade-casing" d={blades.map(linePath).join('')} />
      <path className="board-blade" d={blades.map(linePath).join('')} />
      <circle className="board-ring" cx={x} cy={y} r={letterPx * 0.24} />
    </g>
  );
}

export const TurnoutMark = memo(
  DrawnTurnout,
  ({ view, ...one }, { view: otherView, ...other }) => sameView(view, otherView) && sameView(one, other),
);
