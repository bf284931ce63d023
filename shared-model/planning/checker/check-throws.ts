/** Checks the throws of a plan: one pair of hands, nothing under a train, and every knob right in time. */
import type { BlockId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Seconds } from '../../units.ts';
import type { PlanOptions } from '../plan/options.ts';
import type { PlanThrow } from '../plan-answer.ts';
import type { Situation } from '../situation.ts';
import { type Course, type Entry, type Held, type PlanFault, TOLERANCE } from './course.ts';

const MINUTE: Seconds = 60;

interface Case {
  readonly railroad: Railroad;
  readonly situation: Situation;
  readonly throws: readonly PlanThrow[];
  readonly options: PlanOptions;
  readonly courses: readonly Course[];
}

/** How a knob stands after the throws that began before a moment (or a train that trailed it), and when the last of them ended. */
function standsAt(
  { situation, throws, options, courses }: Case,
  kind: PlanThrow['kind'],
  id: string,
  before: Seconds,
): { readonly to: string | boolean; readonly since: Seconds } {
  const done = throws.filter((one) => one.kind === kind && one.id === id && one.at < before);
  const last = done.at(-1);
  const trailed = courses
    .flatMap((course) => course.trailed)
    .filter((one) => one.id === id && one.at < before && (last === undefined || one.at > last.at))
    .sort((one, other) => one.at - other.at)
    .at(-1);
  if (trailed !== undefined) return { to: trailed.to, since: Number.NEGATIVE_INFINITY };
  if (last !== undefined) return { to: last.to, since: last.at + options.throwSeconds };
  const records: Readonly<Record<PlanThrow['kind'], ReadonlyMap<string, string | boolean>>> = {
    selector: situation.selectors,
    turnout: situation.turnouts,
    toggle: situation.toggles,
  };
  const usual = { selector: 'off', turnout: 'normal', toggle: false } as const;
  return { to: records[kind].get(id) ?? usual[kind], since: Number.NEGATIVE_INFINITY };
}

/** The blocks that a throw touches: those of a turnout's edges, or what a knob feeds through toggles that are on. */
function touched(the: Case, one: PlanThrow): ReadonlySet<BlockId> {
  const { blocks, edgesAt, blockOfEdge, nodes } = the.railroad;
  if (one.kind === 'turnout') {
    const node = [...nodes.values()].find(({ id }) => id === one.id);
    const edges = node === undefined ? [] : (edgesAt.get(node.id) ?? []);
    return new Set(edges.map((edge) => blockOfEdge.get(edge)).filter((block) => block !== undefined));
  }
  const found = new Set<BlockId>();
  for (const { id, source } of blocks.values())
    if (
      ('selector' in source && source.selector === one.id) ||
      ('toggle' in source && source.toggle === one.id)
    )
      found.add(id);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { id, source } of blocks.values()) {
      if (!('toggle' in source) || !found.has(source.from) || found.has(id)) continue;
      if (standsAt(the, 'toggle', source.toggle, one.at + TOLERANCE).to !== true) continue;
      found.add(id);
      grown = true;
    }
  }
  return found;
}

function handsFaults({ throws, options }: Case): PlanFault[] {
  const faults: PlanFault[] = [];
  throws.forEach(({ at, id }, index) => {
    const before = throws[index - 1];
    const wrong = (says: string): void => {
      faults.push({ says, about: [id], at });
    };
    if (at < -TOLERANCE) wrong(`throw of ${id} at ${at.toFixed(3)}: before the situation`);
    if (before !== undefined && at < before.at + options.throwSeconds - TOLERANCE)
      wrong(
        `throw of ${id} at ${at.toFixed(3)}: the hands are at ${before.id} until ${(before.at + options.throwSeconds).toFixed(3)}`,
      );
    const earlier = throws[index - options.throwsPerMinute];
    if (options.throwsPerMinute < 1 || (earlier !== undefined && at - earlier.at < MINUTE - TOLERANCE))
      wrong(`throw of ${id} at ${at.toFixed(3)}: more than ${options.throwsPerMinute} throws in a minute`);
  });
  return faults;
}

/** Whether a train stands still, and for good, while a toggle is put off under it. */
const rests = (courses: readonly Course[], { train }: Held, at: Seconds): boolean =>
  courses.some(
    (course) => course.restsFrom <= at + TOLERANCE && course.held.some((held) => held.train === train),
  );

function underFaults(the: Case): PlanFault[] {
  const { options, courses } = the;
  const held = courses.flatMap((course) => course.held);
  return the.throws.flatMap((one) => {
    const name = `throw of ${one.id} to ${one.to} at ${one.at.toFixed(3)}`;
    const end = one.at + options.throwSeconds;
    const stands = standsAt(the, one.kind, one.id, one.at);
    const blocks = touched(the, one);
    const under = held
      .filter(({ what }) => blocks.has(what as BlockId))
      .filter(({ from, till }) => {
        const over = till + options.marginSeconds <= one.at + TOLERANCE;
        const notYet = from >= end + options.marginSeconds - TOLERANCE;
        return !over && !notYet;
      })
      .filter((by) => !(one.kind === 'toggle' && one.to === false && rests(courses, by, one.at)));
    return [
      ...(stands.to === one.to
        ? [{ says: `${name}: it stands there already`, about: [one.id], at: one.at }]
        : []),
      ...under.map(({ train, what }) => ({
        says: `${name}: ${train.id} is in ${what}, or within the margin of it`,
        about: [one.id, train.id, what],
        at: one.at,
      })),
    ];
  });
}

function entryFaults(the: Case, entry: Entry): PlanFault[] {
  const { railroad, options, courses } = the;
  const name = `${entry.train.id} into ${entry.block} at ${entry.at.toFixed(3)}`;
  const faults: PlanFault[] = [];
  const wrong = (says: string, ...others: string[]): void => {
    faults.push({ says, about: [entry.train.id, entry.block, ...others], at: entry.at });
  };
  const wants = (kind: PlanThrow['kind'], id: string, to: string | boolean): void => {
    // A throw that takes no time may be done at the very moment of the entry.
    const stands = standsAt(the, kind, id, options.throwSeconds === 0 ? entry.at + TOLERANCE : entry.at);
    if (stands.to !== to) wrong(`${name}: ${id} stands at ${stands.to}, not at ${to}`, id);
    else if (stands.since + options.marginSeconds > entry.at + TOLERANCE)
      wrong(`${name}: ${id} is finished at ${stands.since.toFixed(3)}, within the margin`, id);
  };
  for (const { id, position } of entry.levers) wants('turnout', id, position);
  for (let source = railroad.blocks.get(entry.block)?.source; source !== undefined; ) {
    if ('selector' in source) wants('selector', source.selector, entry.cab);
    if (!('toggle' in source)) break;
    wants('toggle', source.toggle, true);
    const parent = source.from;
    for (const held of courses.flatMap((course) => course.held))
      if (
        held.what === parent &&
        held.train !== entry.train &&
        held.from < entry.at - TOLERANCE &&
        entry.at < held.till + options.marginSeconds - TOLERANCE
      )
        wrong(`${name}: ${held.train.id} is in ${parent}, through which it is fed`, held.train.id, parent);
    source = railroad.blocks.get(parent)?.source;
  }
  return faults;
}

/** Everything that is wrong with the throws, and with how the knobs stand when a train comes. `throws` in the order of time. */
export function throwFaults(the: Case): readonly PlanFault[] {
  const entries = the.courses.flatMap((course) => course.entries);
  return [...handsFaults(the), ...underFaults(the), ...entries.flatMap((entry) => entryFaults(the, entry))];
}
