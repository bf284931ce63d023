/** The foot of the drawing: what is at the cursor or under the pointer, what was done last or is asked for, and the sight. */
import { lengthText } from '../../../shared-model/length-text.ts';
import { distance, type Polyline } from '../../../shared-model/polyline.ts';
import type { AtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import { squaresOf } from '../../../shared-model/railroad/editing/move-track.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { useDraftRailroad, useDrawing } from '../use-drawing.tsx';
import { spotWords } from './spot-words.ts';
import { TypingLine } from './typing-line.tsx';

export const ZOOM_STEP = 1.3;

interface DrawingFootProps {
  /** The id of the words that describe the sheet. */
  readonly about: string;
  /** The line that is being drawn, in squares; empty for none. */
  readonly line: Polyline;
  readonly there: AtSpot;
  readonly draws: boolean;
  readonly onTyped: () => void;
  readonly onZoom: (factor: number) => void;
  readonly onWhole: () => void;
}

export function DrawingFoot({ about, line, there, draws, onTyped, onZoom, onWhole }: DrawingFootProps) {
  const railroad = useDraftRailroad();
  const [x, y] = useDrawing((state) => state.hands.cursor);
  const mmPerSquare = useDrawing((state) => state.hands.mmPerSquare);
  const picking = useDrawing((state) => state.picking);
  const says = useDrawing((state) => state.says);
  const system = useConsole((state) => state.settings.lengths);
  const isDrawing = line.length > 0 && distance(line[0] ?? [0, 0], line.at(-1) ?? [0, 0]) > 0;
  const words = isDrawing
    ? `${lengthText(Math.round(squaresOf(line) * mmPerSquare), system)} of new track`
    : spotWords(railroad, there, system);
  const blank = draws && railroad.document.edges.length === 0 ? 'Drag on the sheet to draw track.' : '';
  const done = picking === null ? says : picking.says;
  return (
    <div className="drawing-foot">
      <TypingLine onDone={onTyped} />
      <div className="drawing-foot-lines">
        <p id={about} className="drawing-words" title={words}>
          <span className="quiet figures">
            {x}, {y}
          </span>{' '}
          {words === '' ? blank : words}
        </p>
        <p className="drawing-words" role="status" title={done}>
          {done}
        </p>
        <span className="drawing-board-acts">
          <Act kind="calm" label="Zoom out" onPress={() => onZoom(1 / ZOOM_STEP)}>
            −
          </Act>
          <Act kind="calm" label="Zoom in" onPress={() => onZoom(ZOOM_STEP)}>
            +
          </Act>
          <Act kind="calm" onPress={onWhole} keyName="Home">
            Whole
          </Act>
        </span>
      </div>
    </div>
  );
}
