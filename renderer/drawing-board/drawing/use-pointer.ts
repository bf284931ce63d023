/** The pointer on the drawing. In the drawing hand a drag draws and a press cuts; in the arranging hand a drag moves, bends or selects. */
import { type PointerEvent, type RefObject, useRef, useState } from 'react';
import { distance, type Point } from '../../../shared-model/polyline.ts';
import { type AtSpot, thingAtSpot } from '../../../shared-model/railroad/editing/draw-edge.ts';
import { inRectangle } from '../../../shared-model/railroad/editing/move-track.ts';
import { addBend, moveBend } from '../../../shared-model/railroad/editing/track-acts.ts';
import type { DrawingStore } from '../drawing-store.ts';
import { type BoardActs, dragMark } from './board-acts.ts';
import { moveCursor, putDownOrDraw } from './board-keys.ts';
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
  readonly copies: boolean;
  /** What a drag of it does; decided when it begins to move. */
  move: ((to: Point, fine: boolean) => void) | null;
  drop: (() => void) | null;
  lastPx: Point;
  moved: boolean;
  /** Whether what is moved lies elsewhere now than when it was gripped. */
  shifted: boolean;
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
  /** Whether the key is held with which any button pans. */
  readonly panKey: RefObject<boolean>;
}

export function usePointer({ zone, store, acts, sight, setSight, draws, panKey }: PointerDeps) {
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
    if (node === null && !held.copies && !(selection.has(id) && selection.size > 1)) {
      beginBending(held, id, drag);
      return;
    }
    if (!selection.has(id)) store.select([id]);
    const copy = held.copies ? acts.copy([0, 0], drag) : null;
    if (copy?.ok === false) return;
    const ids = copy === null ? store.get().selection : new Set(copy.about);
    beginShifting(held, (by) => acts.moveBy(ids, by, drag));
    held.drop = () => {
      // A copy that lies on its original would join it all over.
      if (copy !== null && store.get().history.done.at(-1)?.drag === drag && !held.shifted) store.undo();
      else acts.putDown(ids, drag);
    };
  };
  /** Whatever is moved goes by whole squares, or quarters, as far as the pointer went. */
  const beginShifting = (held: Grip, shift: (by: Point) => void): void => {
    let done: Point = [0, 0];
    held.move = (to, fine) => {
      const want = snapped([to[0] - held.start[0], to[1] - held.start[1]], fine);
      const by: Point = [want[0] - done[0], want[1] - done[1]];
      if (by[0] !== 0 || by[1] !== 0) shift(by);
      done = want;
      held.shifted = want[0] !== 0 || want[1] !== 0;
    };
  };
  const beginCarrying = (held: Grip): void => {
    beginShifting(held, (by) => moveCursor(store, acts, by, false));
    held.drop = () => putDownOrDraw(store, acts);
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
    const { picking, selection, hands } = store.get();
    if (hands.carrying !== null && draws) {
      putDownOrDraw(store, acts);
      return;
    }
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
        pans: event.button === 1 || panKey.current,
        draws: draws && hands.hand === 'draw' && picking === null,
        adds: event.shiftKey || event.ctrlKey || event.metaKey,
        copies: event.ctrlKey || event.metaKey,
        move: null,
        drop: null,
        lastPx: startPx,
        moved: false,
        shifted: false,
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
        const { carrying } = store.get().hands;
        // With Shift a drag on the empty sheet selects, whatever the hand.
        const selects = held.adds && held.there === null;
        if (carrying !== null && draws && !held.pans) beginCarrying(held);
        else if (held.draws && !held.pans && !selects) beginDrawing(held, event.altKey);
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
