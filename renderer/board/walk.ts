/** Where an arrow key leads on the board: to the next block or turnout on that side, along the track where there is one. */
import type { Point } from './polyline.ts';

export interface Stop {
  readonly id: string;
  readonly at: Point;
  /** Ids of the stops that the track leads to from here. */
  readonly joined: ReadonlySet<string>;
}

export const DIRECTIONS = ['ArrowRight', 'ArrowLeft', 'ArrowDown', 'ArrowUp'] as const;
export type Direction = (typeof DIRECTIONS)[number];

/** One step in each direction; y points down. */
export const UNIT: Readonly<Record<Direction, Point>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowDown: [0, 1],
  ArrowUp: [0, -1],
};

/** How much farther a stop seems that lies aside, and how much nearer one that the track leads to. */
const ASIDE_WEIGHT = 2;
const JOINED_WEIGHT = 0.4;

/**
 * The next stop in a direction.
 *
 * @returns its id; the same id where nothing lies on that side
 */
export function nextStop(stops: readonly Stop[], from: string, direction: Direction): string {
  const here = stops.find(({ id }) => id === from);
  if (here === undefined) return stops[0]?.id ?? from;
  const [ux, uy] = UNIT[direction];
  let best = { id: from, cost: Number.POSITIVE_INFINITY };
  for (const stop of stops) {
    const [dx, dy] = [stop.at[0] - here.at[0], stop.at[1] - here.at[1]];
    const ahead = dx * ux + dy * uy;
    const aside = Math.abs(dx * uy - dy * ux);
    if (stop.id === from || ahead <= 0 || aside > 3 * ahead) continue;
    const cost = (ahead + ASIDE_WEIGHT * aside) * (here.joined.has(stop.id) ? JOINED_WEIGHT : 1);
    if (cost < best.cost) best = { id: stop.id, cost };
  }
  return best.id;
}
