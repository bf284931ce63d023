/** The board: the railroad stretched out as its owner drew it, with what is known of it now. It is told what to show and what may be pressed. */
import {
  type KeyboardEvent,
  type MouseEvent,
  useDeferredValue,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import { LEAST_ARCMIN, READING_ARCMIN } from '../theme/letter-sizes.ts';
import { useLetterSizes } from '../theme/use-letter-sizes.ts';
import { BoardFigure } from './board-figure.tsx';
import { boardLayout } from './board-layout.ts';
import { BoardTable } from './board-table.tsx';
import type { BoardView } from './board-view.ts';
import { drawnTrains } from './moving-things.ts';
import { following, mostZoom } from './projection.ts';
import { SightButtons } from './sight-buttons.tsx';
import { boardStops, thingAt } from './stops.ts';
import { trackDrawing } from './track-drawing.ts';
import { useSight, useSize } from './use-sight.ts';
import { DIRECTIONS, type Direction, nextStop, UNIT } from './walk.ts';
import './board.css';
import './board-trains.css';
import './board-sights.css';

interface BoardProps {
  readonly railroad: Railroad;
  readonly view: BoardView;
  /** What the board is of, for a screen reader: "Board, live", "Board, rehearsal". */
  readonly label: string;
  /** Somebody pressed a block or a turnout that may be pressed. */
  readonly onOpen?: (id: string) => void;
  /** The train to keep in sight while the board is zoomed. */
  readonly follow?: string | undefined;
  /** Which of the letter sizes its names have: read at the desk, from across the room, or at leisure while nothing there depends on it. */
  readonly readFrom?: 'desk' | 'wall' | 'leisure';
}

/** Names on the wall are a little smaller than what has to be read at a glance: 16 minutes of arc in place of 20, the least that reads well. */
const WALL = LEAST_ARCMIN / READING_ARCMIN;

const isDirection = (key: string): key is Direction => DIRECTIONS.some((direction) => direction === key);

export function Board({ railroad, view, label, onOpen, follow, readFrom = 'desk' }: BoardProps) {
  const zone = useRef<HTMLDivElement>(null);
  const size = useSize(zone);
  const { sight, acts, drag, wasDragged } = useSight(zone, size, mostZoom(railroad.document.blocks.length));
  const sizes = useLetterSizes();
  const letterPx = { desk: sizes.desk, wall: Math.ceil(sizes.far * WALL), leisure: sizes.fine }[readFrom];
  const drawing = useMemo(() => trackDrawing(railroad), [railroad]);
  const layout = useMemo(
    () => boardLayout(railroad, drawing, size, sight.zoom, letterPx),
    [railroad, drawing, size, sight.zoom, letterPx],
  );
  const stops = useMemo(() => boardStops(railroad, layout), [railroad, layout]);
  const [stop, setStop] = useState<string | undefined>(undefined);
  const here = stops.find(({ id }) => id === stop)?.id ?? stops[0]?.id;
  // The table is for reading at leisure: it may follow a moment later than the drawing.
  const tableView = useDeferredValue(view);
  const hatch = useId();
  const trains = useMemo(() => drawnTrains(railroad, layout, view.trains), [railroad, layout, view.trains]);

  const head = trains.find((train) => train.view.id === follow)?.pieces[0]?.at(-1);
  const [headX, headY] = head ?? [undefined, undefined];
  useEffect(() => {
    if (headX !== undefined && headY !== undefined)
      acts.set((before) => following(before, [headX, headY], size));
  }, [headX, headY, size, acts.set]);

  const open = (id: string | undefined) => {
    const thing = [...view.blocks, ...view.turnouts].find((one) => one.id === id);
    if (thing?.pressable === true) onOpen?.(thing.id);
  };
  const focused = (event: KeyboardEvent | MouseEvent): string | undefined =>
    (event.target as Element).closest<SVGElement>('[role=button][data-id]')?.dataset.id;
  const pressed = (event: MouseEvent<HTMLDivElement>): string | undefined => {
    // A click without a pointer (a screen reader's) has no place, but a target.
    if (event.detail === 0) return focused(event);
    const opens = (event.target as Element).closest<SVGElement>('[data-opens]')?.dataset.opens;
    const { left, top } = event.currentTarget.getBoundingClientRect();
    const [panX, panY] = sight.pan;
    return opens ?? thingAt(railroad, layout, [event.clientX - left - panX, event.clientY - top - panY]);
  };

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const id = focused(event);
    if (id === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    if (isDirection(event.key) && event.shiftKey) {
      acts.step(UNIT[event.key]);
    } else if (isDirection(event.key)) {
      const next = nextStop(stops, id, event.key);
      setStop(next);
      zone.current?.querySelector<SVGElement>(`[role=button][data-id=${CSS.escape(next)}]`)?.focus();
      const at = stops.find((one) => one.id === next)?.at;
      if (at !== undefined) acts.set((before) => following(before, at, size));
    } else if (event.key === 'Enter') open(id);
    else if (event.key === 'PageUp') acts.closer();
    else if (event.key === 'PageDown') acts.farther();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys and presses belong to the buttons inside, by delegation
    <div
      ref={zone}
      className="board"
      data-zone="board"
      onKeyDown={onKeyDown}
      onClick={(event) => {
        const id = pressed(event);
        if (id === undefined || wasDragged.current) return;
        setStop(id);
        open(id);
      }}
      {...drag}
    >
      {size.width === 0 ? null : (
        <BoardFigure
          railroad={railroad}
          layout={layout}
          view={view}
          trains={trains}
          label={label}
          size={size}
          pan={sight.pan}
          stop={here}
          hatchId={hatch}
        />
      )}
      <SightButtons acts={acts} zoomed={sight.zoom > 1} corner={layout.corner} />
      <BoardTable railroad={railroad} view={tableView} caption={label} />
    </div>
  );
}
