/** The drawing in the middle of the board: a sheet with lines, the track on it, a cursor, and a line of words below. */
import { type KeyboardEvent, useDeferredValue, useEffect, useId, useMemo, useRef, useState } from 'react';
import { thingAtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import type { Finding } from '../../../shared-model/refusal.ts';
import { useSize } from '../../board/use-sight.ts';
import { FindingMarks } from '../findings/finding-marks.tsx';
import { markSpots } from '../findings/mark-spots.ts';
import { useDraftAudit, useDraftRailroad, useDrawing, useDrawingStore } from '../use-drawing.tsx';
import { BOARD_KEYS, letGo, moveCursor, putDownOrDraw, stepOf } from './board-keys.ts';
import { DrawingFoot, ZOOM_STEP } from './drawing-foot.tsx';
import { DrawingHands } from './drawing-hands.tsx';
import { DrawingLabels } from './drawing-labels.tsx';
import { lookFrom, pannedSight, type Sight, showing, wholeSight, zoomedSight } from './sight.ts';
import { TrackFigure } from './track-figure.tsx';
import { useAfterPaint } from './use-after-paint.ts';
import { useBoardActs } from './use-board-acts.ts';
import { usePointer } from './use-pointer.ts';
import './drawing.css';

const PAN_PX = 120;
/** Pixels to a square below which only each fifth line of the sheet is drawn. */
const FINE_GRID_PX = 10;
const NO_FINDINGS: readonly Finding[] = [];

interface DrawingProps {
  /** Whether the track may be changed; else the drawing only selects. */
  readonly draws: boolean;
  /** Whether the places of warnings are shown, besides those of errors. */
  readonly warns: boolean;
}

/** What to do first, on the sheet itself, until there is track on it. */
const BlankSheet = () => (
  <div className="drawing-say">
    <p>Drag on the sheet: that draws track.</p>
    <p>Begin or end on track that is there, and they join: three edges make a turnout.</p>
    <p>Press track: that cuts a gap.</p>
    <p>A loop is a long line whose two ends are joined, or a shape that closes.</p>
    <p className="quiet">Without a pointer: arrows and d. Help draws a whole railroad, step by step.</p>
  </div>
);

export function Drawing({ draws, warns }: DrawingProps) {
  const store = useDrawingStore();
  const acts = useBoardActs();
  const railroad = useDraftRailroad();
  const selection = useDrawing((state) => state.selection);
  const hands = useDrawing((state) => state.hands);
  const picking = useDrawing((state) => state.picking);
  const zone = useRef<HTMLDivElement>(null);
  const size = useSize(zone);
  const [sight, setSight] = useState<Sight | null>(null);
  const shown = sight ?? wholeSight(railroad.document, size);
  // The track is drawn anew a moment after the sight has changed; until then what is drawn is moved and scaled as a picture.
  const drawn = useDeferredValue(shown);
  // Names look for their spots when the track of an edit is on the screen already.
  const named = useAfterPaint(railroad);
  const findings = useDraftAudit()?.findings ?? NO_FINDINGS;
  const marks = useMemo(
    () => markSpots(named, findings, drawn.scale, warns),
    [named, findings, drawn.scale, warns],
  );
  const change = (next: (before: Sight) => Sight) => setSight((before) => next(before ?? shown));
  const panKey = useRef(false);
  const pointer = { zone, store, acts, sight: shown, setSight: change, draws, panKey };
  const { handlers, ghost, hover } = usePointer(pointer);
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
      // A wheel that goes sideways pans sideways; Shift makes any wheel one.
      const across = event.deltaX !== 0 ? event.deltaX : event.shiftKey ? event.deltaY : 0;
      setSight((before) => {
        if (before === null) return null;
        return across !== 0
          ? pannedSight(before, [-across, 0])
          : zoomedSight(before, 1.0015 ** -event.deltaY, spot);
      });
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
      const key = event.key.toLowerCase();
      if (key === 'a') acts.selectAll();
      else if (key === 'c' && draws) acts.remember();
      else if (key === 'v' && draws) acts.paste();
      else return;
    } else if (event.key === ' ') panKey.current = true;
    else if (event.ctrlKey && step !== undefined)
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
      const there = thingAtSpot(railroad.document, cursor, undefined, railroad);
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

  const under = useMemo(
    () => thingAtSpot(railroad.document, hands.cursor, undefined, railroad),
    [railroad, hands.cursor],
  );
  const penLine = hands.pen.length === 0 ? [] : [...hands.pen, hands.cursor];
  const line = ghost?.is === 'line' ? [ghost.from, ghost.to] : penLine;
  const square = drawn.scale >= FINE_GRID_PX ? drawn.scale : drawn.scale * 5;
  const [left, top] = drawn.origin;

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
        onKeyUp={(event) => {
          if (event.key === ' ') panKey.current = false;
        }}
        onBlur={() => {
          panKey.current = false;
        }}
        {...handlers}
        onPointerDown={(event) => {
          setKeyboard(false);
          handlers.onPointerDown(event);
        }}
      >
        <div className="drawing-look" style={{ transform: lookFrom(drawn, shown) }}>
          <svg className="drawing-figure" width={size.width} height={size.height} aria-hidden="true">
            <defs>
              <pattern
                id={grid}
                width={square}
                height={square}
                patternUnits="userSpaceOnUse"
                patternTransform={`translate(${left} ${top})`}
              >
                <path className="drawing-grid" d={`M${square} 0H0V${square}`} />
              </pattern>
            </defs>
            <rect width="100%" height="100%" fill={`url(#${grid})`} />
            <g transform={`translate(${left} ${top})`}>
              <TrackFigure railroad={railroad} selection={selection} scale={drawn.scale} />
              <DrawingLabels railroad={named} scale={drawn.scale} marks={marks} />
              <FindingMarks marks={marks} />
            </g>
          </svg>
        </div>
        {picking !== null ? (
          <p className="drawing-say" data-asks>
            {picking.says} <span className="quiet">Esc: not now.</span>
          </p>
        ) : draws && railroad.document.edges.length === 0 && hands.pen.length === 0 ? (
          <BlankSheet />
        ) : null}
        <DrawingHands size={size} sight={shown} line={line} ghost={ghost} keyboard={keyboard} />
      </div>
      <DrawingFoot
        about={about}
        line={line}
        there={hover ?? under}
        draws={draws}
        onTyped={() => zone.current?.focus()}
        onZoom={(factor) => change((before) => zoomedSight(before, factor, middle))}
        onWhole={() => setSight(wholeSight(railroad.document, size))}
      />
    </div>
  );
}
