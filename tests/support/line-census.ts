/**
 * Trains on a line of segments with capacities, as in the published census: those for the east start in the westernmost segment, those for
 * the west in the easternmost, one goes on by one segment at a time, and leaves at the far end. Trains of one direction are alike.
 */

/** How many trains of each direction are in each segment, and how many have left. */
export interface LineState {
  readonly east: readonly number[];
  readonly west: readonly number[];
}

export interface Counted {
  readonly state: LineState;
  readonly safe: boolean;
  /** Unsafe, and nobody can move. */
  readonly stuck: boolean;
}

const sum = (list: readonly number[]): number => list.reduce((total, one) => total + one, 0);
const moved = (list: readonly number[], from: number, to: number): readonly number[] =>
  list.map((count, place) => count - (place === from ? 1 : 0) + (place === to ? 1 : 0));

/** The states one move later. */
function after(capacities: readonly number[], { east, west }: LineState): readonly LineState[] {
  const room = (place: number): boolean => {
    const most = capacities[place];
    return most === undefined || (east[place] ?? 0) + (west[place] ?? 0) < most;
  };
  return capacities.flatMap((_, place) => [
    ...((east[place] ?? 0) > 0 && room(place + 1) ? [{ east: moved(east, place, place + 1), west }] : []),
    ...((west[place] ?? 0) > 0 && room(place - 1) ? [{ east, west: moved(west, place, place - 1) }] : []),
  ]);
}

/** Every state that can be reached from the start, breadth first, and whether all can still leave from it. */
export function lineCensus(
  capacities: readonly number[],
  eastbound: number,
  westbound: number,
): readonly Counted[] {
  const nobody = capacities.map(() => 0);
  const first: LineState = {
    east: nobody.map((_, place) => (place === 0 ? eastbound : 0)),
    west: nobody.map((_, place) => (place === nobody.length - 1 ? westbound : 0)),
  };
  const states = new Map<string, LineState>([[JSON.stringify(first), first]]);
  for (const state of states.values())
    for (const next of after(capacities, state)) states.set(JSON.stringify(next), next);
  const good = new Set(
    [...states].filter(([, { east, west }]) => sum(east) + sum(west) === 0).map(([key]) => key),
  );
  for (let before = -1; before < good.size; ) {
    before = good.size;
    for (const [key, state] of states)
      if (after(capacities, state).some((next) => good.has(JSON.stringify(next)))) good.add(key);
  }
  return [...states].map(([key, state]) => ({
    state,
    safe: good.has(key),
    stuck: !good.has(key) && after(capacities, state).length === 0,
  }));
}
