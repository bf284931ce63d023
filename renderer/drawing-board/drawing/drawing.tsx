/** The drawing in the middle of the board: a sheet with lines, the track on it, a cursor, and a line of words below. */
import { type CSSProperties, type KeyboardEvent, useEffect, useId, useMemo, useRef, useState } from 'react';
import { lengthText } from '../../../shared-model/length-text.ts';
import { distance } from '../../../shared-model/polyline.ts';
import { thingAtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import { squaresOf } from '../../../shared-model/railroad/editing/move-track.ts';
import { linePath } from '../../board/polyline.ts';
import { useSize } from '../../board/use-sight.ts';
import { useConsole } from '../../console/use-console.tsx';
import { Act } from '../../parts/act.tsx';
import { FindingMarks } from '../findings/finding-marks.tsx';
import { useDraftRailroad, useDrawing, useDrawingStore } from '../use-drawing.tsx';
import { BOARD_KEYS, letGo, moveCursor, putDownOrDraw, stepOf } from './board-keys.ts';
import { pannedSight, type Sight, showing, wholeSight, zoomedSight } from './sight.ts';
import { spotWords } from './spot-words.ts';
import { TrackFigure } from './track-figure.tsx';
import { TypingLine } from './typing-line.tsx';
import { useBoardActs } from './use-board-acts.ts';
import { usePointer } from './use-pointer.ts';
import './drawing.css';

const ZOOM_STEP = 1.3;
const PAN_PX = 120;

interface DrawingProps {
  /** Whether the track may be changed; else the drawing only selects. */
  readonly draws: boolean;
  /** Whether the places of warnings are shown, besides those of errors. */
  readonly warns: boolean;
}

export function Drawing({ draws, warns }: DrawingProps) {
  const store = useDrawingStore();
  const acts = useBoardActs();
  const railroad = useDraftRailroad();
  const selection = useDrawing((state) => state.selection);
  const hands = useDrawing((state) => state.hands);
  const picking = useDrawing((state) => state.picking);
  const says = useDrawing((state) => state.says);
  const system = useConsole((state) => state.settings.lengths);
  const zone = useRef<HTMLDivElement>(null);
  const size = useSize(zone);
  const [sight, setSight] = useState<Sight | null>(null);
  const shown = sight ?? wholeSight(railroad.document, size);
  const change = (next: (before: Sight) => Sight) => setSight((before) => next(before ?? shown));
  const { handlers, ghost, hover } = usePointer({ zone, store, acts, sight: shown, setSight: change, draws });
  const [grid, about] = [useId(), useId()];
  const [keyboard, setKeyboard] = useState(false);

  // What was in view stays where it is while the first edges are drawn.
  useEffect(() => {
    if (size.width > 0) setSight((before) => before ?? wholeSight(store.get().history.draft, size));
  }, [size, store]);
  useEffect(() => {
    const element = zone.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const { left, top } = element.getBoundingClientRect();
      const spot = [event.clientX - left, event.clientY - top] as const;
      setSight((before) => (before === null ? null : zoomedSight(before, 1.0015 ** -event.deltaY, spot)));
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, []);

  // What is carried is moved by the arrows, wherever it was picked up.
  const carries = hands.carrying !== null;
  useEffect(() => {
    if (carries) zone.current?.focus();
  }, [carries]);

  const middle = [size.width / 2, size.height / 2] as const;
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.altKey || event.metaKey) return;
    const step = stepOf(event.key);
    const { pen, cursor } = store.get().hands;
    setKeyboard(true);
    if (event.ctrlKey && step === undefined) {
      if (event.key.toLowerCase() !== 'a') return;
      acts.selectAll();
    } else if (event.ctrlKey && step !== undefined)
      change((before) => pannedSight(before, [-step[0] * PAN_PX, -step[1] * PAN_PX]));
    else if (step !== undefined) {
      moveCursor(store, acts, step, event.shiftKey);
      const to = store.get().hands.cursor;
      change((before) => showing(before, to, size));
    } else if (event.key === 'Home') setSight(wholeSight(railroad.document, size));
    else if (event.key === '+' || event.key === '=')
      change((before) => zoomedSight(before, ZOOM_STEP, middle));
    else if (event.key === '-') change((before) => zoomedSight(before, 1 / ZOOM_STEP, middle));
    else if (event.key === 'Escape') letGo(store);
    else if (picking !== null && event.key === 'Enter') {
      const there = thingAtSpot(railroad.document, cursor);
      if (there !== null) {
        store.pick(null);
        picking.take(there.is === 'node' ? there.node.id : there.edge);
      }
    } else if (!draws) {
      if (event.key !== 's' && event.key !== 'Enter') return;
      acts.select(event.shiftKey);
    } else if (event.key === 'Enter') putDownOrDraw(store, acts);
    else if (event.key === 'Delete') acts.remove();
    else if (/^[0-9]$/.test(event.key) && pen.length <= 1) acts.type('length', event.key);
    else {
      const found = BOARD_KEYS.find(({ key }) => key === event.key);
      if (found === undefined) return;
      found.act(acts, store);
    }
    event.preventDefault();
  };

  const under = useMemo(() => thingAtSpot(railroad.document, hands.cursor), [railroad, hands.cursor]);
  const penLine = hands.pen.length === 0 ? [] : [...hands.pen, hands.cursor];
  const line = ghost?.is === 'line' ? [ghost.from, ghost.to] : penLine;
  const words =
    line.length > 0 && distance(line[0] ?? [0, 0], line.at(-1) ?? [0, 0]) > 0
      ? `${lengthText(Math.round(squaresOf(line) * hands.mmPerSquare), system)} of new track`
      : spotWords(railroad, hover ?? under, system);
  const [x, y] = hands.cursor;
  const transform = `translate(${shown.origin[0]} ${shown.origin[1]}) scale(${shown.scale})`;
  const fineGrid = shown.scale >= 10;
  const square = fineGrid ? shown.scale : shown.scale * 5;

  return (
    <div className="drawing" data-draws={draws} data-hand={hands.hand} data-picking={picking !== null}>
      <div
        ref={zone}
        className="drawing-zone"
        role="application"
        aria-label={`Drawing of ${railroad.document.name}`}
        aria-describedby={about}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet takes the keys that draw
        tabIndex={0}
        onKeyDown={onKeyDown}
        {...handlers}
        onPointerDown={(event) => {
          setKeyboard(false);
          handlers.onPointerDown(event);
        }}
      >
        <svg
          className="drawing-figure"
          width={size.width}
          height={size.height}
          aria-hidden="true"
          style={{ '--inverse': 1 / shown.scale } as CSSProperties}
        >
          <defs>
            <pattern
              id={grid}
              width={square}
              height={square}
              patternUnits="userSpaceOnUse"
              patternTransform={`translate(${shown.origin[0]} ${shown.origin[1]})`}
            >
              <path className="drawing-grid" d={`M${square} 0H0V${square}`} />
            </pattern>
          </defs>
          <rect width="100%" height="100%" fill={`url(#${grid})`} />
          <g transform={transform}>
            <TrackFigure railroad={railroad} selection={selection} />
            <FindingMarks railroad={railroad} all={warns} />
            {line.length > 1 ? <path className="drawing-ghost" d={linePath(line)} /> : null}
            {ghost?.is === 'rectangle' ? (
              <path
                className="drawing-band"
                d={`M${ghost.from[0]} ${ghost.from[1]}H${ghost.to[0]}V${ghost.to[1]}H${ghost.from[0]}Z`}
              />
            ) : null}
            <g className="drawing-cursor" data-keyboard={keyboard} transform={`translate(${x} ${y})`}>
              <path className="drawing-mark" d="M-14 0H-6M6 0H14M0 -14V-6M0 6V14" />
            </g>
          </g>
        </svg>
      </div>
      <div className="drawing-foot">
        <TypingLine onDone={() => zone.current?.focus()} />
        <p id={about} className="drawing-words">
          <span className="quiet figures">
            {x}, {y}
          </span>{' '}
          {words === ''
            ? draws && railroad.document.edges.length === 0
              ? 'Drag on the sheet to draw track.'
              : ''
            : words}
        </p>
        <p className="drawing-words" role="status">
          {picking === null ? says : picking.says}
        </p>
        <span className="drawing-board-acts">
          <Act
            kind="calm"
            label="Zoom out"
            onPress={() => change((b) => zoomedSight(b, 1 / ZOOM_STEP, middle))}
          >
            −
          </Act>
          <Act kind="calm" label="Zoom in" onPress={() => change((b) => zoomedSight(b, ZOOM_STEP, middle))}>
            +
          </Act>
          <Act kind="calm" onPress={() => setSight(wholeSight(railroad.document, size))} keyName="Home">
            Whole
          </Act>
        </span>
      </div>
    </div>
  );
}
