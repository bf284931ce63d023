/** What the timing of an order of runs keeps as it goes: who has what, from when on, how the knobs stand, how far every train is. */
import type { Seconds } from '../../units.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';

/** A throw with the run that needs it (its place in the order) and what must have been left before it. */
export interface TimedThrow {
  readonly at: Seconds;
  readonly knob: number;
  readonly value: number;
  readonly run: number;
  /** The blocks that were to be empty (or, put off, to stand) for it: all that it feeds through toggles that are on, or that its edges are in. */
  readonly over: readonly number[];
}

export interface OrderState {
  /** Who has each resource: a mover, `NOBODY`, or `OBSTACLE`. */
  readonly holder: Int32Array;
  /** When the last one left it, and who that was. */
  readonly freeAt: Float64Array;
  readonly lastHolder: Int32Array;
  /** Not entered before: the end of a throw that touches the block, with its margin. */
  readonly quietFrom: Float64Array;
  /** The place in the order of the last run that waited for (or was free to use) what was left here. */
  readonly readBy: Int32Array;
  readonly values: Int32Array;
  /** When each knob was thrown last; 0: not yet. */
  readonly changedAt: Float64Array;
  readonly standing: Int32Array;
  readonly ready: Float64Array;
  readonly moved: Uint8Array;
  readonly runsAhead: Int32Array;
  /** The places in the order of the runs of each mover's present move. */
  readonly moveRuns: number[][];
  throws: TimedThrow[];
  /** The place in the order of the run that is timed now. */
  place: number;
}

export const NOBODY = -1;
/** An obstacle holds what it stands in for good. */
export const OBSTACLE = -2;

export function orderState({ table, knobs, movers }: PlanTask): OrderState {
  return {
    holder: new Int32Array(table.resources),
    freeAt: new Float64Array(table.resources),
    lastHolder: new Int32Array(table.resources),
    quietFrom: new Float64Array(table.resources),
    readBy: new Int32Array(table.resources),
    values: new Int32Array(knobs.knobs.length),
    changedAt: new Float64Array(knobs.knobs.length),
    standing: new Int32Array(movers.length),
    ready: new Float64Array(movers.length),
    moved: new Uint8Array(movers.length),
    runsAhead: new Int32Array(movers.length),
    moveRuns: movers.map(() => []),
    throws: [],
    place: 0,
  };
}

/** Everything as it is before the first run of an order; `present` leaves movers out. */
export function resetOrder(
  { knobs, movers, obstacles }: PlanTask,
  state: OrderState,
  order: readonly TimedRun[],
  present?: (mover: number) => boolean,
): void {
  const { holder, runsAhead } = state;
  holder.fill(NOBODY);
  state.freeAt.fill(Number.NEGATIVE_INFINITY);
  state.lastHolder.fill(NOBODY);
  state.quietFrom.fill(Number.NEGATIVE_INFINITY);
  state.readBy.fill(-1);
  state.values.set(knobs.values);
  state.changedAt.fill(0);
  runsAhead.fill(0);
  state.throws = [];
  for (const { mover } of order) runsAhead[mover] = (runsAhead[mover] as number) + 1;
  for (const { resources } of obstacles) for (const resource of resources) holder[resource] = OBSTACLE;
  movers.forEach((mover, index) => {
    state.standing[index] = 0;
    state.ready[index] = mover.notBefore;
    state.moved[index] = 0;
    state.moveRuns[index] = [];
    if (present?.(index) === false) return;
    for (const resource of mover.under(0)) holder[resource] = index;
  });
}
