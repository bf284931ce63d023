/** The pointer on the drawing. In the drawing hand a drag draws and a press cuts; in the arranging hand a drag moves, bends or selects. */
import { type PointerEvent, type RefObject, useRef, useState } from 'react';
import { distance, type Point } from '../../../shared-model/polyline.ts';
import { type AtSpot, thingAtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import { inRectangle } from '../../../shared-model/railroad/editing/move-track.ts';
import { addBend, moveBend } from '../../../shared-model/railroad/editing/track-acts.ts';
import type { DrawingStore } from '../drawing-store.ts';
import { type BoardActs, dragMark } from './board-acts.ts';
import { pannedSight, type Sight, snapped, toSheet } from './sight.ts';

/** Pixels that a pointer may move and still press rather than drag. */
const DRAG_PX = 5;
/** How near a press has to be to a node or edge. */
const REACH_PX = 14;

interface Grip {
  readonly startPx: Point;
  readonly start: Point;
  readonly there: AtSpot;
  readonly pans: boolean;
  readonly draws: boolean;
  readonly adds: boolean;
  /** What a drag of it does; decided when it begins to move. */
  move: ((to: Point, fine: boolean) => void) | null;
  drop: (() => void) | null;
  lastPx: Point;
  moved: boolean;
}

/** What is shown while the pointer is down: a line being drawn, or a rectangle that selects. */
export type Ghost =
  | { readonly is: 'line'; readonly from: Point; readonly to: Point }
  | { readonly is: 'rectangle'; readonly from: Point; readonly to: Point }
  | null;

interface PointerDeps {
  readonly zone: RefObject<HTMLElement | null>;
  readonly store: DrawingStore;
  readonly acts: BoardActs;
  readonly sight: Sight;
  readonly setSight: (change: (before: Sight) => Sight) => void;
  /** Whether the pointer may change the track at all. */
  readonly draws: boolean;
}

export function usePointer({ zone, store, acts, sight, setSight, draws }: PointerDeps) {
  const grip = useRef<Grip | null>(null);
  const [ghost, setGhost] = useState<Ghost>(null);
  const [hover, setHover] = useState<AtSpot>(null);
  const draft = () => store.get().history.draft;

  const pixelOf = (event: PointerEvent): Point => {
    const box = zone.current?.getBoundingClientRect();
    return [event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)];
  };
  const at = (spot: Point): AtSpot => thingAtSpot(draft(), spot, REACH_PX / sight.scale);
  /** Where a line that begins or ends at a spot is joined: a node there, a crossing of the sheet's lines, else the edge itself. */
  const joining = (spot: Point, fine: boolean): Point => {
    const there = at(spot);
    if (there?.is !== 'node') return snapped(spot, fine);
    const { at: own, alsoAt } = there.node;
    return alsoAt !== undefined && distance(alsoAt, spot) < distance(own, spot) ? alsoAt : own;
  };
  const idOf = (there: AtSpot): string | null =>
    there === null ? null : there.is === 'node' ? there.node.id : there.edge;

  const beginMoving = (held: Grip): void => {
    const id = idOf(held.there);
    const drag = dragMark();
    if (id === null) {
      held.move = (to) => setGhost({ is: 'rectangle', from: held.start, to });
      held.drop = () => setGhost(null);
      return;
    }
    const { selection } = store.get();
    const node = held.there?.is === 'node' ? held.there.node : null;
    if (node?.alsoAt !== undefined && distance(node.alsoAt, held.start) < distance(node.at, held.start)) {
      held.move = (to, fine) => void acts.open(node.id, snapped(to, fine), drag);
      return;
    }
    if (node === null && !(selection.has(id) && selection.size > 1)) {
      beginBending(held, id, drag);
      return;
    }
    const ids = selection.has(id) ? selection : new Set([id]);
    if (!selection.has(id)) store.select([id]);
    let done: Point = [0, 0];
    held.move = (to, fine) => {
      const want = snapped([to[0] - held.start[0], to[1] - held.start[1]], fine);
      const by: Point = [want[0] - done[0], want[1] - done[1]];
      if (by[0] !== 0 || by[1] !== 0) acts.moveBy(ids, by, drag);
      done = want;
    };
    held.drop = () => acts.putDown(ids, drag);
  };
  const beginBending = (held: Grip, id: string, drag: string): void => {
    const shape = draft().edges.find((edge) => edge.id === id)?.shape ?? [];
    let index = shape.findIndex((bend) => distance(bend, held.start) <= REACH_PX / sight.scale);
    held.move = (to, fine) => {
      const spot = snapped(to, fine);
      const outcome = index < 0 ? addBend(draft(), id, spot) : moveBend(draft(), id, index, spot);
      if (!acts.carryOut(outcome, `bend in ${id}`, drag)) return;
      const bends = draft().edges.find((edge) => edge.id === id)?.shape ?? [];
      if (index < 0) index = bends.findIndex(([x, y]) => x === spot[0] && y === spot[1]);
    };
  };
  const beginDrawing = (held: Grip, fine: boolean): void => {
    const from = joining(held.start, fine);
    let end = from;
    held.move = (to, finely) => {
      end = joining(to, finely);
      setGhost({ is: 'line', from, to: end });
    };
    held.drop = () => {
      setGhost(null);
      if (distance(from, end) > 0) acts.draw([from, end]);
      store.setHands({ cursor: end });
    };
  };
  const press = ({ there, adds, draws: drawing, start }: Grip): void => {
    const id = idOf(there);
    const { picking, selection } = store.get();
    store.setHands({ cursor: there?.is === 'node' ? there.node.at : snapped(start), passing: false });
    if (picking !== null) {
      if (id === null) return;
      store.pick(null);
      picking.take(id);
    } else if (id === null) store.select(adds ? selection : []);
    else if (adds)
      store.select(selection.has(id) ? [...selection].filter((one) => one !== id) : [...selection, id]);
    else if (
      drawing &&
      (there?.is === 'edge' ||
        (there?.is === 'node' && (there.node.kind === 'gap' || there.node.kind === 'joint')))
    )
      acts.press(there);
    else store.select([id]);
  };

  const handlers = {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button > 1) return;
      zone.current?.setPointerCapture(event.pointerId);
      const startPx = pixelOf(event);
      const start = toSheet(sight, startPx);
      const { hands, picking } = store.get();
      grip.current = {
        startPx,
        start,
        there: at(start),
        pans: event.button === 1,
        draws: draws && hands.hand === 'draw' && picking === null,
        adds: event.shiftKey || event.ctrlKey || event.metaKey,
        move: null,
        drop: null,
        lastPx: startPx,
        moved: false,
      };
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const px = pixelOf(event);
      const held = grip.current;
      if (held === null) {
        const there = at(toSheet(sight, px));
        setHover((before) => (idOf(before) === idOf(there) ? before : there));
        return;
      }
      if (!held.moved && distance(px, held.startPx) < DRAG_PX) return;
      if (!held.moved) {
        held.moved = true;
        if (held.draws) beginDrawing(held, event.altKey);
        else if (!held.pans && (draws || held.there === null)) beginMoving(held);
      }
      if (held.pans)
        setSight((before) => pannedSight(before, [px[0] - held.lastPx[0], px[1] - held.lastPx[1]]));
      held.lastPx = px;
      held.move?.(toSheet(sight, px), event.altKey);
    },
    onPointerUp(event: PointerEvent<HTMLElement>) {
      const held = grip.current;
      grip.current = null;
      if (held === null || held.pans) return;
      const up = toSheet(sight, pixelOf(event));
      if (!held.moved) {
        press(held);
        return setHover(at(up));
      }
      if (ghost?.is === 'rectangle') {
        const inside = inRectangle(draft(), ghost.from, up);
        store.select(held.adds ? [...store.get().selection, ...inside] : inside);
        store.setHands({ passing: false });
      }
      held.drop?.();
      // What is under the pointer may be another thing now.
      setHover(at(up));
    },
    onPointerLeave() {
      setHover(null);
    },
  };
  return { handlers, ghost, hover };
}
