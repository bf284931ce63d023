/** One round of trains that keep moving, pressed together in time: its length, the throws it takes, and how much of it each block is taken. */
import { modelSpeed, type Seconds } from '../../units.ts';
import type { BlockOccupancy, Round } from '../capacity-answer.ts';
import { type Memory, partOf } from '../memory.ts';
import { knobTable } from '../plan/knobs.ts';
import type { PlanOptions } from '../plan/options.ts';
import { type PlanMover, type PlanTask, type TimedRun, timedRuns } from '../plan/plan-task.ts';
import { type Timetable, timetabler } from '../plan/timetable.ts';
import { moverOfGraph } from '../safe-state/interval-mover.ts';
import { moverGraph } from '../safe-state/mover-graph.ts';
import { type Situation, USUAL_MPH } from '../situation.ts';
import { occupancyShare } from '../timing/occupancy.ts';
import { must, type TrackTable } from '../track-table.ts';
import { moverOfHome } from './homes.ts';
import type { Placement } from './keep-moving.ts';

/** Everything off and normal, but what the trains stand on. */
function startOf(table: TrackTable, { homes }: Placement): Situation {
  const selectors = new Map(
    table.railroad.document.selectors.map(({ id }) => [
      id,
      'off' as Situation['trains'][number]['cab'] | 'off',
    ]),
  );
  const toggles = new Map(table.railroad.document.toggles.map(({ id }) => [id, false]));
  for (const { under, cab } of homes)
    for (const block of under) {
      const feed = table.feeds[block];
      if (feed === null || feed === undefined) continue;
      if (feed.selector !== null) selectors.set(feed.selector, cab);
      for (const toggle of feed.toggles) toggles.set(toggle, true);
    }
  return { trains: [], turnouts: new Map(), selectors, toggles, reversals: false };
}

function taskOf(
  table: TrackTable,
  placement: Placement,
  options: PlanOptions,
  memory: Memory,
): PlanTask | null {
  const knobs = knobTable(table, startOf(table, placement));
  const speed = modelSpeed(USUAL_MPH, table.railroad.document.scaleRatio);
  const movers: PlanMover[] = [];
  for (const [index, home] of placement.homes.entries()) {
    const { cab } = home;
    const mover = moverOfHome(table, home, memory);
    const graph = moverGraph(mover.movements, () => false, mover.isGoal);
    if (graph === null) return null;
    const inMm = moverOfGraph(graph);
    movers.push({
      ...inMm,
      id: mover.id,
      cab,
      safeMover: mover,
      speed,
      runsFrom: timedRuns(knobs, index, cab, speed, (standing) => must(graph.runs[standing])),
      timeLeft: (standing) => inMm.timeLeft(standing) / speed,
      isWhole: mover.movements.isWhole,
    });
  }
  return { table, knobs, options, movers, obstacles: [], alone: movers, memory };
}

/** The runs of a placement as timed runs: found again by how they go on from where each train is. */
function orderOf(task: PlanTask, { runs }: Placement): readonly TimedRun[] {
  const at = task.movers.map(() => 0);
  return runs.map(({ mover, movement }) => {
    const standing = must(at[mover]);
    const run = must(
      must(task.movers[mover])
        .runsFrom(standing)
        .find(
          (one) => one.movement.to === movement.to && one.movement.spots.join() === movement.spots.join(),
        ),
    );
    at[mover] = run.to;
    return run;
  });
}

/** Seconds that each block is taken in, over the round. */
function occupancyOf(
  task: PlanTask,
  order: readonly TimedRun[],
  { departs }: Timetable,
  seconds: Seconds,
): readonly BlockOccupancy[] {
  const since = new Map<number, Seconds>();
  const taken: { from: Seconds; till: Seconds }[][] = Array.from({ length: task.table.resources }, () => []);
  const leave = (resource: number, till: Seconds): void => {
    const from = since.get(resource);
    if (from !== undefined) taken[resource]?.push({ from, till });
    since.delete(resource);
  };
  for (const { under } of task.movers) for (const resource of under(0)) since.set(resource, 0);
  order.forEach((run, place) => {
    const at = departs[place] as number;
    for (const { resource, after } of run.enters) since.set(resource, at + after);
    for (const { resource, after } of run.clears) leave(resource, at + after);
  });
  for (const resource of [...since.keys()]) leave(resource, seconds);
  return task.table.blocks
    .map((block, number) => ({ block, share: occupancyShare(must(taken[number]), seconds) }))
    .filter(({ share }) => share > 0)
    .sort((one, other) => other.share - one.share);
}

/**
 * Times one round.
 *
 * @returns null where the knobs forbid the order of the placement
 */
export function roundOf(
  table: TrackTable,
  placement: Placement,
  options: PlanOptions,
  whole: Memory,
): Round | null {
  const memory = partOf(whole);
  const task = taskOf(table, placement, options, memory);
  memory.giveAllBack();
  if (task === null) return null;
  const order = orderOf(task, placement);
  const timetable = timetabler(task)(order);
  if (timetable === null) return null;
  const seconds = timetable.arrives.reduce((most, at) => Math.max(most, at), 0);
  return {
    trains: placement.homes.map(({ train, cab, trail }) => {
      const spot = must(table.spots[must(trail[0])]);
      return {
        train: train.id,
        cab,
        edge: spot.edge,
        toward: spot.toward,
        lengthMm: train.length,
      };
    }),
    runs: placement.runs.map(({ mover, movement }) => ({
      train: must(placement.homes[mover]).train.id,
      to: must(table.blocks[movement.end.block]),
    })),
    seconds,
    throws: timetable.throws.length,
    throwsPerMinute: seconds === 0 ? 0 : (timetable.throws.length * 60) / seconds,
    occupancy: occupancyOf(task, order, timetable, seconds),
  };
}
