/** What follows the hands, above the drawing: the line that is being drawn, the rectangle that selects, the cursor. */
import type { Polyline } from '../../../shared-model/polyline.ts';
import { linePath } from '../../board/polyline.ts';
import { useDrawing } from '../use-drawing.tsx';
import { type Sight, toPixels } from './sight.ts';
import type { Ghost } from './use-pointer.ts';

interface DrawingHandsProps {
  readonly size: { readonly width: number; readonly height: number };
  readonly sight: Sight;
  /** The line that is being drawn, in squares; empty for none. */
  readonly line: Polyline;
  readonly ghost: Ghost;
  /** Whether the keyboard moved the cursor last: then it is plain to see. */
  readonly keyboard: boolean;
}

export function DrawingHands({ size, sight, line, ghost, keyboard }: DrawingHandsProps) {
  const cursor = useDrawing((state) => state.hands.cursor);
  const [x, y] = toPixels(sight, cursor);
  const corners =
    ghost?.is === 'rectangle' ? ([toPixels(sight, ghost.from), toPixels(sight, ghost.to)] as const) : null;
  return (
    <svg className="drawing-figure drawing-hands" width={size.width} height={size.height} aria-hidden="true">
      {line.length > 1 ? (
        <path className="drawing-ghost" d={linePath(line.map((point) => toPixels(sight, point)))} />
      ) : null}
      {corners === null ? null : (
        <path
          className="drawing-band"
          d={`M${corners[0][0]} ${corners[0][1]}H${corners[1][0]}V${corners[1][1]}H${corners[0][0]}Z`}
        />
      )}
      <path
        className="drawing-cursor"
        data-keyboard={keyboard}
        d={`M${x - 14} ${y}h8m12 0h8M${x} ${y - 14}v8m0 12v8`}
      />
    </svg>
  );
}
