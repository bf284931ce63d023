/** Who has what when, by a timetable: the reservations that a further train has to fit between, and how the knobs stand over time. */
import type { Seconds } from '../../units.ts';
import { must } from '../track-table.ts';
import type { PlanTask, TimedRun } from './plan-task.ts';
import type { Timetable } from './timetable.ts';

/** A time in which others have a resource, wide enough for their throws and margins before and after. */
export interface Busy {
  readonly from: Seconds;
  readonly till: Seconds;
}

export interface Visits {
  /** Of each resource, in order of time, not overlapping. */
  readonly busy: readonly (readonly Busy[])[];
  /** How a knob stands before a moment, by the runs of the timetable. */
  valueAt(knob: number, at: Seconds): number;
  /** Beginnings of the throws, ascending. */
  readonly hands: readonly number[];
}

interface Setting {
  readonly at: Seconds;
  readonly value: number;
}

/**
 * Gathers the visits of the trains of an order.
 *
 * @param standing resources of trains that are not in the order yet, with the time until which they are taken to be there
 */
export function visitsOf(
  task: PlanTask,
  order: readonly TimedRun[],
  timetable: Timetable,
  present: readonly number[],
  standing: readonly { readonly resource: number; readonly till: Seconds }[],
): Visits {
  const { options, table, knobs } = task;
  const since = new Float64Array(table.resources).fill(Number.NaN);
  const busy: Busy[][] = Array.from({ length: table.resources }, () => []);
  const settings: Setting[][] = knobs.knobs.map(() => []);
  const ahead = new Float64Array(table.resources);
  const close = (resource: number, till: Seconds): void => {
    const from = since[resource] as number;
    if (!Number.isNaN(from)) busy[resource]?.push({ from: from - (ahead[resource] as number), till });
    since[resource] = Number.NaN;
  };
  for (const mover of present)
    for (const resource of must(task.movers[mover]).under(0)) since[resource] = Number.NEGATIVE_INFINITY;
  order.forEach((run, place) => {
    const departs = timetable.departs[place] as number;
    // The next train needs its own throws between; so much is kept free before an entry.
    const throws = run.needs.length * options.throwSeconds;
    const before = options.marginSeconds + (throws > 0 ? throws + options.marginSeconds : 0);
    for (const { resource, after } of run.enters) {
      since[resource] = departs + after;
      ahead[resource] = before;
    }
    for (const { resource, after } of run.clears) close(resource, departs + after + options.marginSeconds);
    for (const { knob, value } of run.needs) settings[knob]?.push({ at: departs, value });
    for (const { knob, value } of run.trails) settings[knob]?.push({ at: departs, value });
  });
  for (let resource = 0; resource < table.resources; resource += 1) close(resource, Number.POSITIVE_INFINITY);
  for (const { resource, till } of standing)
    busy[resource]?.unshift({ from: Number.NEGATIVE_INFINITY, till });
  for (const list of busy) list.sort((one, other) => one.from - other.from);
  return {
    busy,
    hands: timetable.throws.map(({ at }) => at).sort((one, other) => one - other),
    valueAt: (knob, at) => {
      const list = must(settings[knob]);
      for (let place = list.length - 1; place >= 0; place -= 1) {
        const setting = must(list[place]);
        if (setting.at < at) return setting.value;
      }
      return must(knobs.values[knob]);
    },
  };
}
