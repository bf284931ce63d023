/**
 * Paths over a way graph, and their order. It is a total one, so that the same railroad always gives the same route: shorter; then
 * fewer passages of turnouts in reverse; then the lists of edges entered, compared element by element; then fewer reversals.
 */
import type { TurnoutPosition } from './document.ts';
import type { Step } from './way-graph.ts';

export type Path = readonly Step[];
/** How turnouts have to stand, by their number. */
export type Settled = ReadonlyMap<number, TurnoutPosition>;

/** Length of a path in millimetres, added up in the order of travel. */
export function pathLength(path: Path): number {
  return path.reduce((sum, step) => sum + step.length, 0);
}

/** How many turnouts a path passes in reverse, each passage counted. */
export function reversePassages(path: Path): number {
  return path.filter((step) => step.lever?.position === 'reverse').length;
}

/** Compares two paths of equal length and equally many passages in reverse. */
export function compareEdges(a: Path, b: Path): number {
  const left = a.filter((step) => step.rank !== null);
  const right = b.filter((step) => step.rank !== null);
  for (let i = 0; i < Math.min(left.length, right.length); i += 1) {
    const difference = (left[i]?.rank ?? 0) - (right[i]?.rank ?? 0);
    if (difference !== 0) return difference;
  }
  return left.length - right.length || a.length - b.length;
}

/** The order of paths with one origin; negative when `a` is better. */
export function comparePaths(a: Path, b: Path): number {
  return pathLength(a) - pathLength(b) || reversePassages(a) - reversePassages(b) || compareEdges(a, b);
}

/** The turnout that has to stand right for a step: none where the train moves it itself. */
export function neededLever({ lever }: Step): Step['lever'] {
  return lever?.selfLined === true ? null : lever;
}

/** Whether a step may be taken while turnouts are settled. */
export function fits(step: Step, settled: Settled): boolean {
  const lever = neededLever(step);
  return lever === null || (settled.get(lever.number) ?? lever.position) === lever.position;
}
