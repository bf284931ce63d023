/** A gap: a cut of the rail with its two lips. One that must not be crossed now is barred. */
import { memo } from 'react';
import type { GapSpot } from './board-layout.ts';
import { sameView } from './board-view.ts';

interface GapMarkProps {
  readonly spot: GapSpot;
  readonly barred: boolean;
  readonly letterPx: number;
}

/** Half the width of the cut, in pixels. */
export const CUT_PX = 4;

function DrawnGap({ spot: { at, angle }, barred, letterPx }: GapMarkProps) {
  const lip = letterPx * 0.42;
  const bar = letterPx * 0.8;
  return (
    <g
      className="board-gap"
      transform={`translate(${at[0]} ${at[1]}) rotate(${(angle * 180) / Math.PI})`}
      data-barred={barred || undefined}
    >
      {barred ? (
        <>
          <path className="board-bar-casing" d={`M-3.5 ${-bar}V${bar}M3.5 ${-bar}V${bar}`} />
          <path className="board-bar" d={`M-3.5 ${-bar}V${bar}M3.5 ${-bar}V${bar}`} />
        </>
      ) : (
        <path className="board-lips" d={`M${-CUT_PX} ${-lip}V${lip}M${CUT_PX} ${-lip}V${lip}`} />
      )}
    </g>
  );
}

export const GapMark = memo(DrawnGap, sameView);
