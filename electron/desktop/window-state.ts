/** Where the window was left, kept from one start to the next. */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import type { Rectangle } from 'electron';
import { z } from '../../shared-model/zod.ts';

const pixels = z.number().int().min(-100_000).max(100_000);

const windowState = z.strictObject({
  /** Null where it was never placed: the system chooses. */
  place: z.strictObject({ x: pixels, y: pixels }).nullable(),
  width: z.number().int().min(640).max(100_000),
  height: z.number().int().min(480).max(100_000),
  maximized: z.boolean(),
  fullScreen: z.boolean(),
});
export type WindowState = z.infer<typeof windowState>;

export const FIRST_STATE: WindowState = {
  place: null,
  width: 1280,
  height: 800,
  maximized: false,
  fullScreen: false,
};

/** So much of a window, in pixels each way, has to be on some display to be taken hold of. */
const GRIP = 80;

const overlap = (a: number, aLength: number, b: number, bLength: number): number =>
  Math.min(a + aLength, b + bLength) - Math.max(a, b);

/** The state, but placed by the system where the display on which it was left is gone. */
export function onDisplays(state: WindowState, displays: readonly Rectangle[]): WindowState {
  const { place, width, height } = state;
  if (place === null) return state;
  const isSeen = displays.some(
    (area) =>
      overlap(place.x, width, area.x, area.width) >= GRIP &&
      overlap(place.y, height, area.y, area.height) >= GRIP,
  );
  return isSeen ? state : { ...state, place: null };
}

/** The state that was kept; the first one where none was, or what is there is not one. */
export function readWindowState(file: string): WindowState {
  try {
    const parsed = windowState.safeParse(JSON.parse(readFileSync(file, 'utf8')));
    return parsed.success ? parsed.data : FIRST_STATE;
  } catch {
    return FIRST_STATE;
  }
}

/** Keeps the state, whole or not at all. */
export function writeWindowState(file: string, state: WindowState): void {
  writeFileSync(`${file}.new`, JSON.stringify(state));
  renameSync(`${file}.new`, file);
}
