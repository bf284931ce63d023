/**
 * Trains on a line of segments with capacities, as in the census that the project was given: those for the east start in the westernmost segment, those for
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
  return [
    ...capacities.flatMap((_, place) =>
      (east[place] ?? 0) > 0 && room(place + 1) ? [{ east: moved(east, place, place + 1), west }] : [],
    ),
    ...capacities.flatMap((_, place) =>
      (west[place] ?? 0) > 0 && room(place - 1) ? [{ east, west: moved(west, place, place - 1) }] : [],
    ),
  ];
}

/**
 * Names by which two different states are taken for one: a single sorted list of how far each train is from the east end, negative for
 * the west, one beyond the end for a train that has left. A train for the east that has left (-1) is then not told from one for the west
 * in the segment before the last (-1), nor the last segment's one from the other.
 */
export function blurredName({ east, west }: LineState, trains: readonly [number, number]): string {
  const last = east.length - 1;
  const places = (counts: readonly number[], out: number): number[] => {
    const here = counts.flatMap((count, place) => Array.from({ length: count }, () => place));
    return [...here, ...Array.from({ length: out - here.length }, () => Number.NaN)];
  };
  const eastward = places(east, trains[0]).map((place) => (Number.isNaN(place) ? -1 : last - place));
  const westward = places(west, trains[1]).map((place) => (Number.isNaN(place) ? -last - 1 : place - last));
  return [...eastward, ...westward].sort((one, other) => one - other).join();
}

/**
 * Every state that can be reached from the start, breadth first, and whether all can still leave from it.
 *
 * @param nameOf states of one name are counted once, and only the first of them is gone on from
 */
export function lineCensus(
  capacities: readonly number[],
  eastbound: number,
  westbound: number,
  nameOf: (state: LineState, trains: readonly [number, number]) => string = (state) => JSON.stringify(state),
): readonly Counted[] {
  const name = (state: LineState): string => nameOf(state, [eastbound, westbound]);
  const nobody = capacities.map(() => 0);
  const first: LineState = {
    east: nobody.map((_, place) => (place === 0 ? eastbound : 0)),
    west: nobody.map((_, place) => (place === nobody.length - 1 ? westbound : 0)),
  };
  const states = new Map<string, LineState>([[name(first), first]]);
  for (const state of states.values())
    for (const next of after(capacities, state)) if (!states.has(name(next))) states.set(name(next), next);
  const good = new Set(
    [...states].filter(([, { east, west }]) => sum(east) + sum(west) === 0).map(([key]) => key),
  );
  for (let before = -1; before < good.size; ) {
    before = good.size;
    for (const [key, state] of states)
      if (after(capacities, state).some((next) => good.has(name(next)))) good.add(key);
  }
  return [...states].map(([key, state]) => ({
    state,
    safe: good.has(key),
    stuck: !good.has(key) && after(capacities, state).length === 0,
  }));
}
