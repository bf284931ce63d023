/**
 * How many trains can keep moving, by the track and the wiring: from some placement every one of them sets out, has been in another
 * block, and at last all stand where they stood. What can be done once so can be done for ever; and trains that can keep moving for
 * ever come back to a placement that they were in, since there are only so many.
 */
import { type Draw, shuffled } from '../../chance.ts';
import { type Memory, partOf } from '../memory.ts';
import { decideSafe } from '../safe-state/decide.ts';
import type { SafeRun } from '../safe-state/prioritized.ts';
import { must, type TrackTable } from '../track-table.ts';
import { type Home, moverOfHome } from './homes.ts';

export interface Placement {
  readonly homes: readonly Home[];
  /** The order of runs that brings all of them round. */
  readonly runs: readonly SafeRun[];
}

export interface KeepMoving {
  /** The largest number found, with a placement that shows it; empty where not even one can. */
  readonly best: Placement;
  /** Whether every placement of one more was shown to lock. */
  readonly proven: boolean;
  /** The blocks in which one more locks, the most frequent first; none where no room was left for it. */
  readonly blocks: readonly number[];
}

export interface Search {
  readonly draw: Draw;
  /** It is given back placement by placement. */
  readonly memory: Memory;
  shouldStop(): boolean;
  /** Placements of one number of trains that are tried before giving up; all of them where there are fewer. */
  readonly tries: number;
  /** Whether all trains and cabs are alike, so that only the places matter: then train i of the lists has cab i alone. */
  readonly alike: boolean;
}

/** Effort for one placement, in states. */
const STATES = 40_000;

const apart = (homes: readonly Home[], home: Home): boolean =>
  homes.every(
    (other) => other.cab !== home.cab && !other.under.some((resource) => home.under.includes(resource)),
  );

/** Every placement of trains, one home each, in the order of the lists; of trains that are alike one order of them is enough. */
function* placements(
  lists: readonly (readonly Home[])[],
  alike: boolean,
  before: readonly Home[] = [],
): Generator<readonly Home[]> {
  const list = lists[before.length];
  if (list === undefined) {
    yield before;
    return;
  }
  const last = alike ? (before.at(-1)?.trail[0] ?? -1) : -1;
  for (const home of list)
    if (must(home.trail[0]) > last && apart(before, home)) yield* placements(lists, alike, [...before, home]);
}

type Outcome = { readonly found: Placement } | { readonly locked: readonly number[] } | 'undecided';

function tryPlacement(table: TrackTable, homes: readonly Home[], whole: Memory): Outcome {
  const memory = partOf(whole);
  const movers = homes.map((home) => moverOfHome(table, home, memory));
  const answer = decideSafe({ table, movers, obstacles: [], memory }, { states: STATES });
  memory.giveAllBack();
  if (answer.verdict === 'safe') return { found: { homes, runs: answer.runs } };
  return answer.verdict === 'gridlock' ? { locked: answer.locked.blocks } : 'undecided';
}

/** Looks for a placement of one more than `base` has: the base with one more first, then all, in an order that is drawn. */
function oneMore(
  table: TrackTable,
  lists: readonly (readonly Home[])[],
  base: readonly Home[],
  search: Search,
): { readonly found: Placement | null; readonly proven: boolean; readonly locked: readonly number[] } {
  const locked: number[] = [];
  let tried = 0;
  let proven = true;
  const attempt = (homes: readonly Home[]): Placement | null => {
    tried += 1;
    const outcome = tryPlacement(table, homes, search.memory);
    if (outcome === 'undecided') proven = false;
    else if ('found' in outcome) return outcome.found;
    else locked.push(...outcome.locked);
    return null;
  };
  const last = must(lists[base.length]);
  for (const home of shuffled(last, search.draw).filter((one) => apart(base, one))) {
    if (tried >= search.tries / 2 || search.shouldStop()) break;
    const found = attempt([...base, home]);
    if (found !== null) return { found, proven, locked };
  }
  tried = 0;
  const drawn = lists.slice(0, base.length + 1).map((list) => shuffled(list, search.draw));
  for (const homes of placements(drawn, search.alike)) {
    if (tried >= search.tries || search.shouldStop()) return { found: null, proven: false, locked };
    const found = attempt(homes);
    if (found !== null) return { found, proven, locked };
  }
  // A search that was stopped may not even have all homes.
  return { found: null, proven: proven && !search.shouldStop(), locked };
}

/** Numbers by how often they are in a list, the most frequent first. */
function byFrequency(list: readonly number[]): readonly number[] {
  const counts = new Map<number, number>();
  for (const one of list) counts.set(one, (counts.get(one) ?? 0) + 1);
  return [...counts].sort((one, other) => other[1] - one[1] || one[0] - other[0]).map(([one]) => one);
}

/** @param lists the homes of each train, in the order in which trains are put on the railroad */
export function keepMoving(
  table: TrackTable,
  lists: readonly (readonly Home[])[],
  search: Search,
): KeepMoving {
  let best: Placement = { homes: [], runs: [] };
  while (best.homes.length < lists.length) {
    const { found, proven, locked } = oneMore(table, lists, best.homes, search);
    if (found === null) return { best, proven, blocks: byFrequency(locked) };
    best = found;
  }
  return { best, proven: true, blocks: [] };
}
