/**
 * The k best paths without loops: Yen's deviations (Management Science 17(11), 1971) in Lawler's form, where every path of the rest
 * is in exactly one part, and the best of each part waits in a queue.
 *
 * "No turnout in both settings" is not a property that a shortest-path search can see, since it depends on the whole way. So a best
 * path that breaks it splits its part in two, the turnout settled the one way or the other: the first path from the queue that keeps
 * the rule is the best one that does.
 */
import TinyQueue from 'tinyqueue';
import type { TurnoutPosition } from './document.ts';
import {
  type Beginning,
  comparePaths,
  completePath,
  distancesToGoal,
  type Path,
  type PathQuery,
} from './shortest-path.ts';
import type { Step } from './way-graph.ts';

export interface BestPathsOptions {
  /** How many paths, at most. */
  readonly count: number;
  /** Only paths that need no turnout in both settings. */
  readonly oneSetting: boolean;
  readonly settled: ReadonlyMap<number, TurnoutPosition>;
}

/** A part of all paths: those with this beginning; with the best of them. */
interface Part {
  readonly beginning: Beginning;
  readonly path: Path;
}

/**
 * Searches that one question may take. Every railroad drawn so far needs a few dozen; the bound only keeps a maze of reversing
 * loops from holding the evening up, since the question with turnouts in one setting is NP-hard in general.
 */
const MOST_SEARCHES = 5_000;

/** The first turnout that a path passes in both settings; undefined when there is none. */
function turnoutInBothSettings(path: Path): number | undefined {
  const needed = new Map<number, TurnoutPosition>();
  for (const { lever } of path) {
    if (lever === null) continue;
    if ((needed.get(lever.number) ?? lever.position) !== lever.position) return lever.number;
    needed.set(lever.number, lever.position);
  }
  return undefined;
}

const settlesAgainst = (steps: readonly Step[], turnout: number, position: TurnoutPosition): boolean =>
  steps.some(({ lever }) => lever !== null && lever.number === turnout && lever.position !== position);

/** The two halves of a part, by how the turnout stands. */
function splitAt(part: Beginning, turnout: number): readonly Beginning[] {
  return (['normal', 'reverse'] as const)
    .filter((position) => !settlesAgainst(part.steps, turnout, position))
    .map((position) => ({ ...part, settled: new Map([...part.settled, [turnout, position]]) }));
}

/** The parts that are left of a part when its best path is taken out of it: one for each step at which another path can leave it. */
function deviations(part: Part, oneSetting: boolean): readonly Beginning[] {
  const { beginning, path } = part;
  return path.slice(beginning.steps.length).map((step, index) => {
    const steps = path.slice(0, beginning.steps.length + index);
    const passed = steps.flatMap(({ lever }): [number, TurnoutPosition][] =>
      lever === null ? [] : [[lever.number, lever.position]],
    );
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
  const remaining = distancesToGoal(query, options.settled);
  const parts = new TinyQueue<Part>([], (a, b) => comparePaths(a.path, b.path));
  let searches = 0;
  const enqueue = (beginning: Beginning): void => {
    searches += 1;
    const path = completePath(query, beginning, remaining);
    if (path !== undefined) parts.push({ beginning, path });
  };
  enqueue({ steps: [], barred: new Set(), settled: options.settled });
  const found: Path[] = [];
  for (let part = parts.pop(); part !== undefined && searches < MOST_SEARCHES; part = parts.pop()) {
    const clash = options.oneSetting ? turnoutInBothSettings(part.path) : undefined;
    if (clash !== undefined) {
      for (const half of splitAt(part.beginning, clash)) enqueue(half);
      continue;
    }
    found.push(part.path);
    if (found.length >= options.count) break;
    for (const rest of deviations(part, options.oneSetting)) enqueue(rest);
  }
  return found;
}
