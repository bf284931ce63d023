/** One train as the search between the times of others sees it: where it can go, how long that takes, and what it holds meanwhile. */
import type { Movement } from '../movements.ts';
import { must } from '../track-table.ts';
import { type MoverGraph, mmToGoal } from './mover-graph.ts';

/** A run between numbered standings. */
export interface IntervalRun {
  readonly to: number;
  readonly movement: Movement;
}

/** One train as this search sees it. Times are in any one unit: seconds, or millimetres where nobody's speed matters. */
export interface IntervalMover {
  /** Millimetres in a unit of time. */
  readonly speed: number;
  readonly notBefore: number;
  /** The resources under it. */
  under(standing: number): readonly number[];
  /** The runs out of a standing, always the same list. */
  runsFrom(standing: number): readonly IntervalRun[];
  /** A time of running from a standing to the goal than which there is no less. */
  timeLeft(standing: number): number;
  isGoal(standing: number): boolean;
}

/** The mover of a graph that was explored to its end, in millimetres. */
export function moverOfGraph(graph: MoverGraph): IntervalMover {
  const mm = mmToGoal(graph);
  return {
    speed: 1,
    notBefore: 0,
    under: (standing) => must(graph.under[standing]),
    runsFrom: (standing) => must(graph.runs[standing]),
    timeLeft: (standing) => must(mm[standing]),
    isGoal: (standing) => graph.runsLeft[standing] === 0,
  };
}

/** A run with what the search asks of it again and again. */
export interface ReadyRun {
  readonly run: IntervalRun;
  readonly takes: number;
  /** The resources entered, and how long after departing each is held at least. */
  readonly enters: readonly number[];
  readonly holds: readonly number[];
  /** Only to be free at the moment of departing. */
  readonly parents: readonly number[];
  /** How long after departing each resource under the train at first is still held. */
  readonly behind: readonly number[];
}

const readyRuns = new WeakMap<IntervalMover, (readonly ReadyRun[] | undefined)[]>();

function makeReady(mover: IntervalMover, standing: number, run: IntervalRun): ReadyRun {
  const { speed } = mover;
  const { enters, diamonds, clears, lengthMm, wants } = run.movement;
  const takes = lengthMm / speed;
  const holdOf = (resource: number): number => {
    for (const clear of clears) if (clear.resource === resource) return clear.atMm / speed;
    return takes;
  };
  const entered = [...enters, ...diamonds].map(({ resource }) => resource);
  return {
    run,
    takes,
    enters: entered,
    holds: entered.map(holdOf),
    parents: wants.filter((resource) => !entered.includes(resource)),
    behind: mover.under(standing).map(holdOf),
  };
}

/** The runs out of a standing, made ready when they are first asked for and kept with the mover. */
export function readyRunsFrom(mover: IntervalMover, standing: number): readonly ReadyRun[] {
  let all = readyRuns.get(mover);
  if (all === undefined) {
    all = [];
    readyRuns.set(mover, all);
  }
  const known = all[standing];
  if (known !== undefined) return known;
  const made = mover.runsFrom(standing).map((run) => makeReady(mover, standing, run));
  all[standing] = made;
  return made;
}
