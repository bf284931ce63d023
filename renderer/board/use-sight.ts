/** How the board is looked at: its zone's size, the zoom and the pan, and the hands that change them. */
import { type PointerEvent, type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Point } from './polyline.ts';
import { panned, type Sight, type Size, WHOLE, zoomed } from './projection.ts';

/** One press of a zoom button or key. */
const ZOOM_STEP = 1.35;
/** One press of a pan button or key, as a share of the zone. */
const PAN_STEP = 0.25;
/** Pixels that a pointer may move and still press rather than drag. */
const DRAG_PX = 6;

export interface SightActs {
  readonly closer: () => void;
  readonly farther: () => void;
  readonly whole: () => void;
  /** Moves what is seen by a step; `[1, 0]` shows more of what lies to the right. */
  readonly step: (direction: Point) => void;
  readonly set: (change: (sight: Sight) => Sight) => void;
}

/** The size of an element in CSS pixels, as it changes. */
export function useSize(element: RefObject<Element | null>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const seen = element.current;
    if (seen === null) return;
    const observer = new ResizeObserver(() => {
      const { clientWidth: width, clientHeight: height } = seen;
      setSize((before) => (before.width === width && before.height === height ? before : { width, height }));
    });
    observer.observe(seen);
    return () => observer.disconnect();
  }, [element]);
  return size;
}

/**
 * @param element the board's zone
 * @param size its size
 * @param most how far it may be zoomed
 * @returns the sight, the acts that change it, and whether a drag was just ended (then the click that follows it presses nothing)
 */
export function useSight(element: RefObject<HTMLElement | null>, size: Size, most: number) {
  const [sight, set] = useState<Sight>(WHOLE);
  const zoomBy = (factor: number) =>
    set((before) => zoomed(before, factor, [size.width / 2, size.height / 2], size, most));
  const acts: SightActs = {
    closer: () => zoomBy(ZOOM_STEP),
    farther: () => zoomBy(1 / ZOOM_STEP),
    whole: () => set(WHOLE),
    step: ([dx, dy]) =>
      set((before) => panned(before, [-dx * size.width * PAN_STEP, -dy * size.height * PAN_STEP], size)),
    set,
  };

  useEffect(() => {
    const zone = element.current;
    if (zone === null) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const { left, top } = zone.getBoundingClientRect();
      const about: Point = [event.clientX - left, event.clientY - top];
      set((before) => zoomed(before, 1.0015 ** -event.deltaY, about, size, most));
    };
    zone.addEventListener('wheel', onWheel, { passive: false });
    return () => zone.removeEventListener('wheel', onWheel);
  }, [element, size, most]);

  const grip = useRef<{ at: Point; dragged: boolean } | null>(null);
  const wasDragged = useRef(false);
  const drag = {
    onPointerDown(event: PointerEvent) {
      wasDragged.current = false;
      if (event.button === 0) grip.current = { at: [event.clientX, event.clientY], dragged: false };
    },
    onPointerMove(event: PointerEvent) {
      const held = grip.current;
      if (held === null) return;
      const by: Point = [event.clientX - held.at[0], event.clientY - held.at[1]];
      if (!held.dragged && Math.hypot(...by) < DRAG_PX) return;
      grip.current = { at: [event.clientX, event.clientY], dragged: true };
      set((before) => panned(before, by, size));
    },
    onPointerUp() {
      wasDragged.current = grip.current?.dragged ?? false;
      grip.current = null;
    },
    onPointerLeave() {
      grip.current = null;
    },
  };
  return { sight, acts, drag, wasDragged };
}
