/**
 * W8: the critical path of the project network of fourteen activities (F. Hillier and G. Lieberman, Introduction to Operations Research,
 * "Reliable Construction"; durations and precedences from memory, length and slack computed). Turned into a railroad: every activity is a
 * block, three trains do what follows one upon the other, and where one train's activity waits for another's, their lines cross in a
 * block so short that it takes no time. The planner's timetable of that order of runs is the longest path.
 */
import { describe, expect, it } from 'vitest';
import type { PlanOptions } from '../../shared-model/planning/plan/options.ts';
import { planTask, type TimedRun } from '../../shared-model/planning/plan/plan-task.ts';
import { timetabler } from '../../shared-model/planning/plan/timetable.ts';
import { plainNodes, type SmallTrack } from '../support/line-of-track.ts';
import { STEP_MM, situationOf, stepRailroad, trainsAt } from '../support/step-track.ts';

const HOURS = { A: 2, B: 4, C: 10, D: 6, E: 4, F: 5, G: 7, H: 9, I: 7, J: 8, K: 4, L: 5, M: 2, N: 6 };
type Activity = keyof typeof HOURS;
const isActivity = (name: string): name is Activity => name in HOURS;

/** Nothing to throw that takes time, no words, no margins. */
const BARE: PlanOptions = {
  throwSeconds: 0,
  marginSeconds: 0,
  throwsPerMinute: 60,
  talkSeconds: 0,
  startSeconds: 0,
};
/** Seconds that stand for an hour of the example. */
const HOUR = 10;

/** What each train passes. A name of two letters is a crossing: the second activity waits for the first. `w` is room to wait. */
const LINES = {
  t1: ['A', 'B', 'C', 'CD', 'CI', 'E', 'EH', 'F', 'IJ', 'J', 'JK', 'L', 'KN', 'N'],
  t2: ['CD', 'D', 'G', 'EH', 'H', 'M'],
  t3: ['CI', 'I', 'IJ', 'w', 'JK', 'K', 'KN', 'z'],
} as const;
/** The order of the runs: what has to come before comes before. */
const ORDER = ['t1 6', 't2 3', 't3 4', 't1 4', 't2 3', 't1 2', 't3 4', 't1 2'] as const;

function network(longer: Partial<Record<Activity, number>>): SmallTrack {
  const nodes: SmallTrack['nodes'][number][] = [];
  const edges: [string, string, string, number][] = [];
  const blocks: Record<string, string> = {};
  const ways = new Map<string, [string, string][]>();
  for (const [train, line] of Object.entries(LINES)) {
    let at = `n-${train}`;
    nodes.push(...plainNodes(at));
    [`S${train}`, ...line].forEach((name, index, all) => {
      const to = index === all.length - 1 ? `n-${train}z` : `g-${train}-${index}`;
      nodes.push(...plainNodes(to));
      if (name.length === 2 && !name.startsWith('S')) {
        const own: [string, string] = [`${name}-${train}a`, `${name}-${train}b`];
        edges.push([own[0], at, `X-${name}`, 1], [own[1], `X-${name}`, to, 1]);
        ways.set(name, [...(ways.get(name) ?? []), own]);
        blocks[name] ??= own[0];
      } else {
        const hours = isActivity(name) ? HOURS[name] + (longer[name] ?? 0) : 0;
        edges.push([`e-${name}`, at, to, hours * STEP_MM + 2]);
        blocks[name] = `e-${name}`;
      }
      at = to;
    });
  }
  for (const [name, both] of ways)
    nodes.push({ id: `X-${name}`, kind: 'crossing', ways: both as never, insulated: false } as never);
  return { nodes, edges, blocks };
}

/** Hours until the last train is at its end, with some activities so much longer. */
function projectHours(longer: Partial<Record<Activity, number>> = {}): number {
  const railroad = stepRailroad(network(longer), 3, 1);
  const at = Object.entries(LINES).map(([train, line]) => ({
    at: `e-S${train}:g-${train}-0`,
    to: `${line.at(-1)}`,
  }));
  const task = planTask(railroad, situationOf(railroad, trainsAt(...at)), BARE);
  const standing = [0, 0, 0];
  const order = ORDER.flatMap((part) => {
    const [train = '', count = ''] = part.split(' ');
    const mover = Number(train.slice(1)) - 1;
    return Array.from({ length: Number(count) }, (): TimedRun => {
      const [run] = task.movers[mover]?.runsFrom(standing[mover] ?? 0) ?? [];
      if (run === undefined) throw new Error(`${train} is at its end`);
      standing[mover] = run.to;
      return run;
    });
  });
  const timetable = timetabler(task)(order);
  return Math.max(...(timetable?.arrives ?? [])) / HOUR;
}

/** Hours by which an activity may be late without any end being late; nothing for those of the critical path. */
const SLACK: Readonly<Record<Activity, number>> = {
  ...{ A: 0, B: 0, C: 0, E: 0, F: 0, J: 0, L: 0, N: 0 },
  ...{ D: 4, G: 4, H: 4, I: 2, K: 1, M: 4 },
};

describe('W8: the project network as a railroad', () => {
  it('takes 44 hours, the length of A B C E F J L N', () => {
    expect(projectHours()).toBeCloseTo(44, 1);
    const critical = (Object.keys(SLACK) as Activity[]).filter((name) => SLACK[name] === 0);
    expect(critical.join('')).toBe('ABCEFJLN');
    expect(critical.reduce((sum, name) => sum + HOURS[name], 0)).toBe(44);
  });
  it.each(Object.entries(SLACK) as [Activity, number][])(
    '%s has %i hours of slack: so much longer it delays nothing, an hour more than that delays the whole by an hour',
    (activity, slack) => {
      expect(projectHours({ [activity]: slack })).toBeCloseTo(44, 1);
      expect(projectHours({ [activity]: slack + 1 })).toBeCloseTo(45, 1);
    },
  );
});
