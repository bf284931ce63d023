/** What is to be planned, made ready for the searches: every train's runs with their times, the knobs, the options. */
import type { ThrottleId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { modelSpeed, type Seconds } from '../../units.ts';
import type { Movement } from '../movements.ts';
import { moverOf } from '../safe.ts';
import type { Mover, Obstacle } from '../safe-state/decide.ts';
import type { IntervalMover } from '../safe-state/interval-way.ts';
import { type GraphRun, type MoverGraph, mmToGoal, moverGraph } from '../safe-state/mover-graph.ts';
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

/** A train that moves; its `timeLeft` are seconds. */
export interface PlanMover extends IntervalMover {
  readonly id: string;
  readonly cab: ThrottleId;
  /** The same train as the search for a safe state knows it: the same movements. */
  readonly safeMover: Mover;
  /** The runs out of a standing, always the same list. */
  runsFrom(standing: number): readonly TimedRun[];
}

export interface PlanTask {
  readonly table: TrackTable;
  readonly knobs: KnobTable;
  readonly options: PlanOptions;
  readonly movers: readonly PlanMover[];
  readonly obstacles: readonly Obstacle[];
}

/** A run of a mover with its times, at a speed in millimetres per second. */
function timedRun(knobs: KnobTable, mover: number, cab: ThrottleId, speed: number, run: GraphRun): TimedRun {
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

/** The timed runs of a mover, each list made when it is first asked for: most standings are never come to. */
export function timedRuns(
  knobs: KnobTable,
  mover: number,
  cab: ThrottleId,
  speed: number,
  graph: MoverGraph,
): PlanMover['runsFrom'] {
  const lists: (readonly TimedRun[] | undefined)[] = [];
  return (standing) => {
    const known = lists[standing];
    if (known !== undefined) return known;
    const made = must(graph.runs[standing]).map((run) => timedRun(knobs, mover, cab, speed, run));
    lists[standing] = made;
    return made;
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
      speed,
      runsFrom: timedRuns(knobs, mover, train.cab, speed, graph),
      timeLeft: mmToGoal(graph).map((mm) => mm / speed),
    });
  }
  return { table, knobs, options, movers, obstacles };
}
