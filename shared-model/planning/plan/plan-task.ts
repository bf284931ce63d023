/** What is to be planned, made ready for the searches: every train's runs with their times, the knobs, the options. */
import type { ThrottleId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { modelSpeed, type Seconds } from '../../units.ts';
import type { Movement } from '../movements.ts';
import { moverOf } from '../safe.ts';
import type { Mover, Obstacle } from '../safe-state/decide.ts';
import { type GraphRun, type MoverGraph, moverGraph } from '../safe-state/mover-graph.ts';
import type { Situation } from '../situation.ts';
import { makeStanding } from '../standing.ts';
import { must, type TrackTable, trackTable } from '../track-table.ts';
import { type KnobTable, knobTable, type Need } from './knobs.ts';
import type { PlanOptions } from './options.ts';

/** A resource and when it matters, in seconds after the head leaves the stop where the run begins. */
export interface When {
  readonly resource: number;
  readonly after: Seconds;
}

/** A run of one mover with its times. Runs are told apart by identity. */
export interface TimedRun {
  readonly mover: number;
  readonly from: number;
  readonly to: number;
  readonly seconds: Seconds;
  /** Blocks and diamonds that it comes to have. */
  readonly enters: readonly When[];
  /** Parents of the sections entered: free of other trains at that moment. */
  readonly parents: readonly number[];
  readonly clears: readonly When[];
  readonly needs: readonly Need[];
  readonly movement: Movement;
}

export interface PlanMover {
  readonly id: string;
  readonly cab: ThrottleId;
  readonly notBefore: Seconds;
  /** The same train as the search for a safe state knows it: the same movements. */
  readonly safeMover: Mover;
  readonly graph: MoverGraph;
  /** The runs out of each standing. */
  readonly runs: readonly (readonly TimedRun[])[];
  /** Least seconds of running from each standing to the goal; Infinity where it cannot be reached. */
  readonly secondsLeft: Float64Array;
}

export interface PlanTask {
  readonly table: TrackTable;
  readonly knobs: KnobTable;
  readonly options: PlanOptions;
  readonly movers: readonly PlanMover[];
  readonly obstacles: readonly Obstacle[];
}

/** Least seconds from each standing to a goal, by relaxing backwards until nothing changes. */
export function secondsToGoal(graph: MoverGraph, secondsOf: (run: GraphRun) => Seconds): Float64Array {
  const left = new Float64Array(graph.size).fill(Number.POSITIVE_INFINITY);
  const queue: number[] = [];
  for (let standing = 0; standing < graph.size; standing += 1)
    if (graph.runsLeft[standing] === 0) {
      left[standing] = 0;
      queue.push(standing);
    }
  for (let next = 0; next < queue.length; next += 1) {
    const at = must(queue[next]);
    for (const run of must(graph.into[at])) {
      const seconds = must(left[at]) + secondsOf(run);
      if (seconds < must(left[run.from])) {
        left[run.from] = seconds;
        queue.push(run.from);
      }
    }
  }
  return left;
}

/** A run of a mover with its times, at a speed in millimetres per second. */
export function timedRun(
  knobs: KnobTable,
  mover: number,
  cab: ThrottleId,
  speed: number,
  run: GraphRun,
): TimedRun {
  const { movement } = run;
  const after = ({ resource, atMm }: { resource: number; atMm: number }): When => ({
    resource,
    after: atMm / speed,
  });
  const entered = [...movement.enters, ...movement.diamonds].map(after);
  const own = new Set(entered.map(({ resource }) => resource));
  return {
    mover,
    from: run.from,
    to: run.to,
    seconds: movement.lengthMm / speed,
    enters: entered,
    parents: movement.wants.filter((resource) => !own.has(resource)),
    clears: movement.clears.map(after),
    needs: knobs.needs(movement, cab),
    movement,
  };
}

/**
 * Makes a situation ready for planning.
 *
 * @returns null where a train could stand in more ways than are looked at
 */
export function planTask(railroad: Railroad, situation: Situation, options: PlanOptions): PlanTask | null {
  const table = trackTable(railroad);
  const knobs = knobTable(table, situation);
  const parked = situation.trains.filter(({ to }) => to === null);
  const obstacles = parked.map(
    (train): Obstacle => ({
      id: train.id,
      resources: makeStanding(table, train.trail.map(table.spotNumber), 0, train.lengthMm).under,
    }),
  );
  const taken = new Set(obstacles.flatMap(({ resources }) => resources));
  const movers: PlanMover[] = [];
  for (const train of situation.trains) {
    if (train.to === null) continue;
    const safeMover = moverOf(table, train, train.to, situation.reversals);
    const { movements, isGoal } = safeMover;
    const graph = moverGraph(movements, (resource) => taken.has(resource), isGoal);
    if (graph === null) return null;
    const speed = modelSpeed(train.mph, railroad.document.scaleRatio);
    const mover = movers.length;
    movers.push({
      id: train.id,
      cab: train.cab,
      notBefore: train.notBefore,
      safeMover,
      graph,
      runs: graph.runs.map((list) => list.map((run) => timedRun(knobs, mover, train.cab, speed, run))),
      secondsLeft: secondsToGoal(graph, (run) => run.movement.lengthMm / speed),
    });
  }
  return { table, knobs, options, movers, obstacles };
}
