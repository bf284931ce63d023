/** The drawing in the middle of the board: for now the track as lines, coloured nowhere. */

import { linePath } from '../../board/polyline.ts';
import { trackDrawing } from '../../board/track-drawing.ts';
import { useDraftRailroad } from '../use-drawing.tsx';
import './drawing.css';

/** @param draws whether the pointer draws track; else it only selects */
export function Drawing({ draws }: { readonly draws: boolean }) {
  const railroad = useDraftRailroad();
  const { lines, bounds } = trackDrawing(railroad);
  const [width, height] = [bounds.right - bounds.left + 2, bounds.bottom - bounds.top + 2];
  return (
    <div className="drawing" data-draws={draws}>
      <svg
        role="img"
        aria-label={`Track of ${railroad.document.name}`}
        viewBox={`${bounds.left - 1} ${bounds.top - 1} ${width} ${height}`}
      >
        <path className="drawing-track" d={[...lines.values()].map(linePath).join('')} />
      </svg>
    </div>
  );
}
