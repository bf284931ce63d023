/** The Track sheet: the pointer's hand, what is selected and what can be done with it, the railroad's own figures, and the keys. */
import { lengthText } from '../../../shared-model/length-text.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Choice } from '../../parts/field.tsx';
import { DraftFigure, DraftText } from '../draft-field.tsx';
import { BOARD_KEYS, OTHER_KEYS } from '../drawing/board-keys.ts';
import { TypedLength } from '../typed-length.tsx';
import { useDraft, useDrawing, useDrawingStore } from '../use-drawing.tsx';
import { SelectedThings } from './selected-things.tsx';
import './track.css';

function Hands() {
  const store = useDrawingStore();
  const hand = useDrawing((state) => state.hands.hand);
  const mmPerSquare = useDrawing((state) => state.hands.mmPerSquare);
  return (
    <>
      <Choice
        label="The pointer"
        hint={
          hand === 'draw'
            ? 'Drag: track, joined to what it meets. Press track: a gap. Press a gap or a corner: the other. Shift and press, or Shift and drag: select.'
            : 'Drag a node or a selection: move it; with Ctrl a copy. Drag track: bend it. Drag on the sheet: select. Shift and press: add to the selection.'
        }
        value={hand}
        options={[
          { value: 'draw', says: 'draws' },
          { value: 'arrange', says: 'arranges' },
        ]}
        onChange={(next) => store.setHands({ hand: next })}
      />
      <TypedLength
        label="One square of new track is"
        mm={mmPerSquare}
        onChange={(mm) => store.setHands({ mmPerSquare: mm })}
      />
    </>
  );
}

function RailroadFigures() {
  const store = useDrawingStore();
  const draft = useDraft();
  const { name, scaleRatio, system, edges } = draft;
  const lengths = useConsole((state) => state.settings.lengths);
  const all = edges.reduce((sum, { length }) => sum + length, 0);
  return (
    <>
      <h3>The railroad</h3>
      <DraftText
        label="Name of the railroad"
        value={name}
        onChange={(next) => store.change({ ...draft, name: next }, 'name of the railroad', 'railroad name')}
      />
      <DraftFigure
        label="Scale, 1 to"
        value={scaleRatio}
        range={{ least: 0, above: true, most: 1000, unit: 'the ratio' }}
        onChange={(next) =>
          next === undefined
            ? undefined
            : store.change({ ...draft, scaleRatio: next }, 'scale', 'railroad scale')
        }
      />
      <Choice
        label="System"
        value={system}
        options={[
          { value: 'three-rail-ac', says: 'three-rail AC' },
          { value: 'two-rail-dc', says: 'two-rail DC' },
        ]}
        onChange={(next) => store.change({ ...draft, system: next }, `system: ${next}`)}
      />
      {edges.length === 0 ? null : (
        <p className="quiet">
          {edges.length} edges, {lengthText(all, lengths)} of track
        </p>
      )}
    </>
  );
}

function Keys() {
  return (
    <details className="track-keys">
      <summary>Keys of the drawing</summary>
      <dl>
        {[...BOARD_KEYS.map(({ key, says }) => [key, says] as const), ...OTHER_KEYS].map(([key, says]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

export function TrackSheet() {
  const isSelected = useDrawing((state) => state.selection.size > 0);
  return (
    <div className="track-sheet">
      <Hands />
      {isSelected ? <SelectedThings /> : <RailroadFigures />}
      <Keys />
    </div>
  );
}
