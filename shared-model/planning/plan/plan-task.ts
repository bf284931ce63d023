/** What is to be planned, made ready for the searches: every train's runs with their times, the knobs, the options. */
import type { BlockId, ThrottleId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { modelSpeed, type Seconds } from '../../units.ts';
import { mmToBlock } from '../goal-distance.ts';
import { type Memory, memoryOf } from '../memory.ts';
import type { Movement } from '../movements.ts';
import { moverOf } from '../safe.ts';
import type { IntervalMover } from '../safe-state/interval-mover.ts';
import { MOST_STANDINGS } from '../safe-state/mover-graph.ts';
import type { Mover, Obstacle } from '../safe-state/safe-task.ts';
import type { Situation, SituationTrain } from '../situation.ts';
import { makeStanding } from '../standing.ts';
import { canFeed, must, type TrackTable, trackTable } from '../track-table.ts';
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
  /** How it leaves the self-lining turnouts that it trails. */
  readonly trails: readonly Need[];
  readonly movement: Movement;
}

/** A train that moves; its times are seconds. */
export interface PlanMover extends IntervalMover {
  readonly id: string;
  readonly cab: ThrottleId;
  /** The same train as the search for a safe state knows it: the same movements. */
  readonly safeMover: Mover;
  runsFrom(standing: number): readonly TimedRun[];
  /** Whether its runs, as far as they were asked for, are all that there are: there was memory for them. */
  isWhole(): boolean;
}

export interface PlanTask {
  readonly table: TrackTable;
  readonly knobs: KnobTable;
  readonly options: PlanOptions;
  readonly movers: readonly PlanMover[];
  readonly obstacles: readonly Obstacle[];
  /** The movers as they would be without the obstacles. */
  readonly alone: readonly PlanMover[];
  /** What the searches may have of it; what the movers have was taken from the same. */
  readonly memory: Memory;
}

/** A run of a mover with its times, at a speed in millimetres per second. */
function timedRun(
  knobs: KnobTable,
  mover: number,
  cab: ThrottleId,
  speed: number,
  { from, to, movement }: NumberedRun,
): TimedRun {
  const after = ({ resource, atMm }: { resource: number; atMm: number }): When => ({
    resource,
    after: atMm / speed,
  });
  const entered = [...movement.enters, ...movement.diamonds].map(after);
  const own = new Set(entered.map(({ resource }) => resource));
  return {
    mover,
    from,
    to,
    seconds: movement.lengthMm / speed,
    enters: entered,
    parents: movement.wants.filter((resource) => !own.has(resource)),
    clears: movement.clears.map(after),
    needs: knobs.needs(movement, cab),
    trails: knobs.trails(movement),
    movement,
  };
}

interface NumberedRun {
  readonly from: number;
  readonly to: number;
  readonly movement: Movement;
}

/** The timed runs of a mover, each list made when it is first asked for: most standings are never come to. */
export function timedRuns(
  knobs: KnobTable,
  mover: number,
  cab: ThrottleId,
  speed: number,
  runsOf: (standing: number) => readonly NumberedRun[],
): PlanMover['runsFrom'] {
  const lists: (readonly TimedRun[] | undefined)[] = [];
  return (standing) => {
    const known = lists[standing];
    if (known !== undefined) return known;
    const made = runsOf(standing).map((run) => timedRun(knobs, mover, cab, speed, run));
    lists[standing] = made;
    return made;
  };
}

/**
 * One train of a plan, among obstacles. Its standings are found as they are come to; how far it still has to go is told by the track
 * alone, as if the train had no length.
 *
 * @param isTaken whether a resource is had by something that never moves
 */
export function planMover(
  table: TrackTable,
  knobs: KnobTable,
  number: number,
  train: SituationTrain,
  to: BlockId,
  isTaken: (resource: number) => boolean,
  memory: Memory,
): PlanMover {
  const safeMover = moverOf(table, train, to, false, memory);
  const { movements, isGoal } = safeMover;
  const goal = must(table.blockNumber.get(to));
  const isOpen = (block: number): boolean => canFeed(table, block, train.cab) && !isTaken(block);
  const leftMm = mmToBlock(table, goal, isOpen);
  const speed = modelSpeed(train.mph, table.railroad.document.scaleRatio);
  const headOf = (standing: number): number => must(movements.standing(standing).spots[0]);
  const runsOf = (standing: number): readonly NumberedRun[] =>
    movements.count() > MOST_STANDINGS
      ? []
      : movements
          .runs(standing)
          .filter(
            (run) => !run.wants.some(isTaken) && must(leftMm[headOf(run.to)]) < Number.POSITIVE_INFINITY,
          )
          .map((movement) => ({ from: standing, to: movement.to, movement }));
  return {
    id: train.id,
    cab: train.cab,
    notBefore: train.notBefore,
    safeMover,
    speed,
    under: (standing) => movements.standing(standing).under,
    runsFrom: timedRuns(knobs, number, train.cab, speed, runsOf),
    timeLeft: (standing) => must(leftMm[headOf(standing)]) / speed,
    isGoal,
    isWhole: () => movements.isWhole() && movements.count() <= MOST_STANDINGS,
  };
}

/** Makes a situation ready for planning. */
export function planTask(
  railroad: Railroad,
  situation: Situation,
  options: PlanOptions,
  memory: Memory = memoryOf(),
): PlanTask {
  const table = trackTable(railroad);
  const knobs = knobTable(table, situation);
  const obstacles = situation.trains
    .filter(({ to }) => to === null)
    .map(
      (train): Obstacle => ({
        id: train.id,
        resources: makeStanding(table, train.trail.map(table.spotNumber), 0, train.lengthMm).under,
      }),
    );
  const taken = new Set(obstacles.flatMap(({ resources }) => resources));
  const moversAmong = (isTaken: (resource: number) => boolean): readonly PlanMover[] => {
    const movers: PlanMover[] = [];
    for (const train of situation.trains)
      if (train.to !== null)
        movers.push(planMover(table, knobs, movers.length, train, train.to, isTaken, memory));
    return movers;
  };
  const movers = moversAmong((resource) => taken.has(resource));
  const alone = obstacles.length === 0 ? movers : moversAmong(() => false);
  return { table, knobs, options, movers, obstacles, alone, memory };
}
