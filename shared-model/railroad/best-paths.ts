/**
 * The k best paths without loops: Yen's deviations (Management Science 17(11), 1971) in Lawler's form, where every path of the rest
 * is in exactly one part, and the best of each part waits in a queue.
 *
 * "No turnout in both settings" depends on the whole way, so a shortest-path search cannot see it. It is watched only where it
 * matters: a best path that breaks the rule at a turnout has that turnout watched from then on, and is looked for again. The first
 * that keeps the rule is the best that does, since fewer rules can only make a path better.
 */
import TinyQueue from 'tinyqueue';
import { type Beginning, completePath, type Guide } from './complete-path.ts';
import type { TurnoutPosition } from './document.ts';
import { isPlainGraph, nearestPath } from './nearest-path.ts';
import { comparePaths, neededLever, type Path, type Settled } from './path-order.ts';
import { distancesToGoal, type PathQuery } from './path-query.ts';

export interface BestPathsOptions {
  /** How many paths, at most. */
  readonly count: number;
  /** Only paths that need no turnout in both settings. */
  readonly oneSetting: boolean;
  readonly settled: Settled;
}

/** A part of all paths: those with this beginning; with the best of them. */
interface Part {
  readonly beginning: Beginning;
  readonly path: Path;
}

/**
 * States that one question may look at: half a second. A railroad of 400 blocks takes some thousands; the question with turnouts in one
 * setting is NP-hard in general, and the bound keeps a maze of reversing loops, in which there is no such way, from holding the
 * evening up. Where it is reached, what was found so far is all that is given.
 */
const MOST_LOOKED_AT = 100_000;

/** The first turnout that a path passes in both settings; undefined when there is none. */
function turnoutInBothSettings(path: Path): number | undefined {
  const needed = new Map<number, TurnoutPosition>();
  for (const step of path) {
    const lever = neededLever(step);
    if (lever === null) continue;
    if ((needed.get(lever.number) ?? lever.position) !== lever.position) return lever.number;
    needed.set(lever.number, lever.position);
  }
  return undefined;
}

/** The parts that are left of a part when its best path is taken out of it: one for each step at which another path can leave it. */
function deviations(part: Part, oneSetting: boolean): readonly Beginning[] {
  const { beginning, path } = part;
  return path.slice(beginning.steps.length).map((step, index) => {
    const steps = path.slice(0, beginning.steps.length + index);
    const passed = steps.flatMap((step): [number, TurnoutPosition][] => {
      const lever = neededLever(step);
      return lever === null ? [] : [[lever.number, lever.position]];
    });
    return {
      steps,
      barred: new Set(index === 0 ? [...beginning.barred, step] : [step]),
      settled: oneSetting ? new Map([...beginning.settled, ...passed]) : beginning.settled,
    };
  });
}

/**
 * The best paths from the origin to a goal, in order; fewer than asked for when there are no more.
 *
 * @returns paths that are at no place twice, in the order of `comparePaths`
 */
export function bestPaths(query: PathQuery, options: BestPathsOptions): readonly Path[] {
  if (options.count === 1 && isPlainGraph(query.graph)) {
    const nearest = nearestPath(query, options.settled);
    if (nearest === undefined) return [];
    if (!options.oneSetting || turnoutInBothSettings(nearest) === undefined) return [nearest];
  }
  const watched = new Map<number, number>();
  const effort = { left: MOST_LOOKED_AT };
  let guide: Guide = {
    remaining: distancesToGoal(query, options.settled, options.count === 1),
    watched,
    effort,
  };
  const parts = new TinyQueue<Part>([], (a, b) => comparePaths(a.path, b.path));
  const enqueue = (beginning: Beginning): void => {
    for (;;) {
      const path = completePath(query, beginning, guide);
      if (path === undefined) return;
      const clash = options.oneSetting ? turnoutInBothSettings(path) : undefined;
      if (clash === undefined) {
        parts.push({ beginning, path });
        return;
      }
      // A longer way than the nearest is wanted: from now on the guide has to know the distances of all.
      if (watched.size === 0) guide = { ...guide, remaining: distancesToGoal(query, options.settled, false) };
      watched.set(clash, watched.size);
    }
  };
  enqueue({ steps: [], barred: new Set(), settled: options.settled });
  const found: Path[] = [];
  for (let part = parts.pop(); part !== undefined; part = parts.pop()) {
    found.push(part.path);
    if (found.length >= options.count) break;
    for (const rest of deviations(part, options.oneSetting)) enqueue(rest);
  }
  return found;
}
