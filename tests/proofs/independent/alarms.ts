/** Alarms: which of those standing have ended, which are new, and what one line of a script told about it. */

import { feedOf, knobOf, phaseCode, supplyOf } from './feed.ts';
import { areaOf } from './knobs.ts';
import { relation } from './phase.ts';
import {
  type Alarm,
  addReason,
  ahead,
  authorityOf,
  inForce,
  isIn,
  placed,
  type Reason,
  type State,
  type World,
} from './state.ts';
import { sure } from './sure.ts';
import { cabAt, gapsUnder, locksOn, standRight, viewOf, waysOf, wrongFor } from './views.ts';

const TABLE = [
  'entered-unauthorised',
  'entered-unlined',
  'not-adjacent',
  'still-under',
  'wrong-throttle',
  'turnout-moved',
  'second-train',
  'bridging',
  'unphased-ahead',
  'breaker',
  'off-the-rails',
];

/** What a line did that endings and raisings depend on. */
export interface Happening {
  raised: Reason[];
  /** Trains of which something was reported. */
  reported: string[];
  /** Trains reported to have stopped. */
  stopped: string[];
  /** Trains whose place was corrected. */
  corrected: string[];
  settled: string[];
  /** Knobs thrown or reported. */
  knobs: string[];
  phaseAsked: boolean;
  reset: string[];
}

export const nothing = (): Happening => ({
  raised: [],
  reported: [],
  stopped: [],
  corrected: [],
  settled: [],
  knobs: [],
  phaseAsked: false,
  reset: [],
});

/** Marks a block disputed, keeping whose it was. */
export function dispute(world: World, before: State, state: State, block: string): void {
  if (state.disputed[block]) return;
  const { cab, train } = viewOf(world, before, block);
  state.disputed[block] = { cab, train };
}

/** Wrong throttles in some blocks: what feeds them is not the owner's. */
export function raiseWrongThrottle(
  world: World,
  state: State,
  blocks: readonly string[],
  happening: Happening,
): void {
  for (const block of blocks) {
    const feed = feedOf(world, state, block);
    const cab = viewOf(world, state, block).cab;
    if (feed !== null && cab !== null && feed !== cab)
      addReason(happening.raised, 'wrong-throttle', block, feed);
  }
}

/** Whether one of two trains named the other in its latest authority, to run together. */
const together = (state: State, one: string, other: string): boolean =>
  [
    [one, other],
    [other, one],
  ].some(([train, named]) =>
    state.authorities.findLast((authority) => authority.train === train)?.together.includes(named ?? ''),
  );

/** A report of a knob: wrong throttles behind it, and second trains that it makes run. */
export function raiseAtKnob(
  world: World,
  before: State,
  state: State,
  knob: string,
  happening: Happening,
): void {
  happening.knobs.push(knob);
  const area = areaOf(world, state, knob);
  raiseWrongThrottle(world, state, area, happening);
  for (const train of placed(state))
    for (const { block } of sure(state.trains[train]).blocks) {
      const feed = feedOf(world, state, block);
      if (!area.includes(block) || feed === null || feedOf(world, before, block) === feed) continue;
      const runs = placed(state).some(
        (other) =>
          other !== train &&
          sure(state.trains[other]).cab === feed &&
          !sure(state.trains[other]).stopped &&
          !together(state, train, other),
      );
      if (runs) addReason(happening.raised, 'second-train', knobOf(world, block), train);
    }
}

function bridged(world: World, state: State): { gap: string; train: string }[] {
  return placed(state).flatMap((train) =>
    gapsUnder(world, state, train).flatMap((way) => {
      const [one, other] = [sure(world.track.blockOf[way.from]), sure(world.track.blockOf[way.to])];
      const [a, b] = [feedOf(world, state, one), feedOf(world, state, other)];
      if (a === null || b === null || a === b) return [];
      const agreed = cabAt(state, train, one) === a && cabAt(state, train, other) === b;
      return agreed && phaseCode(world, state, a, b) === null ? [] : [{ gap: way.node, train }];
    }),
  );
}

/** Gaps that authorities in force still lead over between two supplies: gap, supply before, supply behind. */
function supplyGaps(world: World, state: State): { about: string[]; bad: boolean }[] {
  return state.authorities.filter(inForce).flatMap((authority) => {
    if (authority.kind === 'limits') return [];
    let cab = sure(sure(state.trains[authority.train]).cab);
    return ahead(authority).flatMap((visit) => {
      const from = cab;
      cab = visit.cab;
      const supplies = [supplyOf(world, from), supplyOf(world, cab)];
      if (supplies[0] === supplies[1]) return [];
      const about = [sure(sure(visit.steps[0]).by).node, ...supplies];
      return [{ about, bad: phaseCode(world, state, from, cab) !== null }];
    });
  });
}

const is = (reason: Reason, other: Reason): boolean =>
  reason.code === other.code && reason.about.join('\n') === other.about.join('\n');

function ended(world: World, state: State, alarm: Alarm, happening: Happening): boolean {
  const [thing, second] = alarm.about as [string, string];
  const authority = authorityOf(state, thing);
  if (alarm.code === 'entered-unauthorised' || alarm.code === 'not-adjacent') {
    if (happening.settled.includes(second) || happening.corrected.includes(thing)) return true;
    if (alarm.code === 'not-adjacent' || authority === undefined || authority.state === 'granted')
      return false;
    return authority.visits.some((visit) => visit.block === second && visit.read);
  }
  if (alarm.code === 'entered-unlined') {
    const view = viewOf(world, state, second);
    if (!isIn(state, thing, second) && view.train !== thing) return true;
    if (view.train !== alarm.owner && view.state !== 'disputed') return true;
    const feed = feedOf(world, state, second);
    if (feed === null && happening.knobs.includes(knobOf(world, second))) return true;
    const entered = state.authorities
      .filter((one) => one.train === thing)
      .findLast((one) => one.visits.slice(0, one.pos + 1).some((visit) => visit.block === second));
    const visits = (entered?.visits ?? []).slice(0, (entered?.pos ?? -1) + 1);
    const ways = waysOf(visits.filter((visit) => visit.block === second).flatMap((visit) => visit.steps));
    return feed !== null && feed === view.cab && standRight(state, ways);
  }
  if (alarm.code === 'still-under') return happening.reported.includes(thing);
  if (alarm.code === 'wrong-throttle') {
    const view = viewOf(world, state, thing);
    const feed = feedOf(world, state, thing);
    return feed === null || feed === view.cab || view.train !== alarm.owner;
  }
  if (alarm.code === 'turnout-moved')
    return !locksOn(world, state, thing).some((lock) => wrongFor(lock, sure(state.turnouts[thing])));
  if (alarm.code === 'second-train')
    return !(state.trains[second]?.blocks ?? []).some(
      ({ block }) => knobOf(world, block) === thing && feedOf(world, state, block) !== null,
    );
  if (alarm.code === 'bridging') return !bridged(world, state).some(({ gap }) => gap === thing);
  if (alarm.code === 'unphased-ahead')
    return (
      relation(state.checks, second, sure(alarm.about[2])) === 'in-phase' ||
      !state.authorities.some(
        (one) => inForce(one) && one.visits.some((visit) => visit.steps[0]?.by?.node === thing),
      )
    );
  if (alarm.code === 'breaker') return happening.reset.includes(thing);
  const blocks = state.trains[thing]?.blocks ?? [];
  return !state.derailed.includes(thing) && !blocks.some(({ block }) => state.disputed[block]);
}

/** Ends and raises alarms after a line; answers those that are new, in the order of the table. */
export function settleAlarms(
  world: World,
  before: State,
  state: State,
  happening: Happening,
  line: number,
): Reason[] {
  const raised = [...happening.raised];
  const was = bridged(world, before);
  for (const { gap, train } of bridged(world, state))
    if (!was.some((one) => one.gap === gap && one.train === train)) addReason(raised, 'bridging', gap);
  if (happening.phaseAsked)
    for (const one of supplyGaps(world, state))
      if (one.bad) addReason(raised, 'unphased-ahead', ...one.about);
  state.alarms = state.alarms.filter((alarm) => !ended(world, state, alarm, happening));
  const fresh = raised
    .filter((reason) => !state.alarms.some((alarm) => is(alarm, reason)))
    .sort((a, b) => TABLE.indexOf(a.code) - TABLE.indexOf(b.code));
  for (const { code, about } of fresh) {
    const block =
      code === 'wrong-throttle' ? sure(about[0]) : code === 'entered-unlined' ? sure(about[1]) : null;
    const owner = block === null ? null : viewOf(world, state, block).train;
    state.alarms.push({ code, about, owner, line });
  }
  return fresh;
}
