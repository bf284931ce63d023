/** The demo evening, run through the real rules: what it promises to show, counted. */
import { describe, expect, test } from 'vitest';
import { demoEvening } from '../../shared-model/demo/evening.ts';
import { demoRailroad } from '../../shared-model/demo/railroad.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { RefusalCode } from '../../shared-model/refusal.ts';
import { newEvening, problemWith, take } from '../../shared-model/session/evening.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import type { SessionState } from '../../shared-model/session/state.ts';

interface Line {
  readonly event: SessionEvent;
  readonly state: SessionState;
  readonly problem: string | null;
}

function heldFor(seed: number): readonly Line[] {
  let evening = newEvening(indexRailroad(demoRailroad));
  return demoEvening(seed).map((timed) => {
    const problem = problemWith(evening.railroad, evening.state, timed.input);
    const taken = take(evening, timed);
    evening = taken.evening;
    return { event: taken.event, state: evening.state, problem };
  });
}

const sameOrder = (one: SessionInput, other: SessionInput): boolean =>
  one.do === other.do &&
  (one.do === 'request-move' || one.do === 'grant-limits'
    ? 'train' in other && one.train === other.train
    : JSON.stringify(one) === JSON.stringify(other));

/** Whether an input mends a reason: the way out that goes with its code. */
const MENDS: Partial<
  Record<RefusalCode, (about: readonly string[], refused: SessionInput, next: SessionInput) => boolean>
> = {
  'not-now': ([cab], _, next) => next.do === 'assign-cab' && next.cab === cab,
  'out-of-service': ([thing], _, next) => next.do === 'untag' && next.thing === thing,
  'block-occupied': (_, refused, next) => sameOrder(refused, next),
  'block-disputed': ([block], _, next) => next.do === 'settle' && next.block === block,
  'hand-off-needed': ([block, cab], _, next) =>
    next.do === 'hand-off' && next.block === block && next.toCab === cab,
  'phase-unknown': ([, a, b], _, next) => next.do === 'phase-measured' && next.a === a && next.b === b,
  'section-live': ([toggle], _, next) => next.do === 'set-toggle' && next.toggle === toggle && !next.on,
  'turnout-locked': (_, refused, next) => sameOrder(refused, next),
  'second-train-live': ([knob], _, next) =>
    next.do === 'turn-selector' && next.selector === knob && next.position === 'off',
  'train-too-long': (_, refused, next) =>
    sameOrder(refused, next) && next.do === 'request-move' && next.overhang === true,
  'sweeps-live-position': ([, cab], _, next) => next.do === 'handle-at-zero' && next.cab === cab,
};

/** Whether a refusal was followed, at most ten inputs later, by a way out that was taken. */
function wayOutTaken(lines: readonly Line[], index: number): boolean {
  const refused = lines[index]?.event;
  if (refused === undefined) return false;
  return lines
    .slice(index + 1, index + 11)
    .some(
      ({ event }) =>
        event.outcome === 'done' &&
        refused.reasons.some((reason) =>
          MENDS[reason.code as RefusalCode]?.(reason.about, refused.input, event.input),
        ),
    );
}

/** The most inputs of any 60 seconds, half open. */
function busiestMinute(lines: readonly Line[]): number {
  return Math.max(
    ...lines.map(
      ({ event }) => lines.filter((o) => o.event.at >= event.at && o.event.at < event.at + 60).length,
    ),
  );
}

const inMotion = ({ phase, trains, authorities }: SessionState): number =>
  phase !== 'running'
    ? 0
    : Object.entries(trains).filter(
        ([id, train]) =>
          train.placed &&
          !train.stopped &&
          Object.values(authorities).some((held) => held.train === id && held.state === 'running'),
      ).length;

/** The longest time, in seconds, during which three trains or more were under way at every moment. */
function longestWithThree(lines: readonly Line[]): number {
  let since: number | null = null;
  let longest = 0;
  for (const { event, state } of lines) {
    if (since !== null) longest = Math.max(longest, event.at - since);
    since = inMotion(state) >= 3 ? (since ?? event.at) : null;
  }
  return longest;
}

const doneVerbs = (lines: readonly Line[]): ReadonlySet<string> =>
  new Set(lines.filter(({ event }) => event.outcome !== 'refused').map(({ event }) => event.input.do));

describe.each([0, 1, 2, 3, 4_294_967_295])('the demo evening %i', (seed) => {
  const lines = heldFor(seed);
  const events = lines.map(({ event }) => event);
  const refusals = events.filter(({ outcome }) => outcome === 'refused');
  const alarms = new Set(
    events.filter(({ outcome }) => outcome === 'alarm').flatMap(({ reasons }) => reasons.map((r) => r.code)),
  );
  const codes = new Set(refusals.flatMap(({ reasons }) => reasons.map(({ code }) => code)));

  test('is an hour (within five minutes) of 600 inputs or more, from the opening to the end, in which nobody names what is not there', () => {
    expect(events.length).toBeGreaterThanOrEqual(600);
    expect(lines.filter(({ problem }) => problem !== null)).toEqual([]);
    expect(events.every((event, index) => event.at >= (events[index - 1]?.at ?? 0))).toBe(true);
    expect(events.at(-1)?.at).toBeGreaterThanOrEqual(55 * 60);
    expect(events.at(-1)?.at).toBeLessThanOrEqual(65 * 60);
    expect([events[0]?.input.do, events.at(-1)?.input.do]).toEqual(['open-session', 'end-session']);
    expect(lines.at(-1)?.state.phase).toBe('ended');
    const notes = events.filter(({ input }) => input.do === 'note').length;
    expect(notes / events.length).toBeLessThanOrEqual(0.05);
    const people = new Set(
      lines.flatMap(({ state }) => Object.values(state.cabs).flatMap(({ person }) => person ?? [])),
    );
    expect(people.size).toBeGreaterThanOrEqual(3);
    expect(people.size).toBeLessThanOrEqual(5);
    console.info(
      `seed ${seed}: ${events.length} inputs, ${notes} notes, ${events.at(-1)?.at} s, ${people.size} people, ` +
        `busiest minute ${busiestMinute(lines)}, three trains for ${longestWithThree(lines)} s, ` +
        `${refusals.length} refusals of ${codes.size} codes, alarms ${[...alarms].join(' ')}`,
    );
  });

  test('has a minute of 15 inputs or more, and three trains in motion together for twenty minutes', () => {
    expect(busiestMinute(lines)).toBeGreaterThanOrEqual(15);
    expect(longestWithThree(lines)).toBeGreaterThanOrEqual(1200);
  });

  test('refuses for eight codes or more, and every refusal is followed within ten inputs by a way out', () => {
    expect(codes.size).toBeGreaterThanOrEqual(8);
    const left = lines.flatMap(({ event }, index) =>
      event.outcome === 'refused' && !wayOutTaken(lines, index) ? [event.entry] : [],
    );
    expect(left).toEqual([]);
  });

  test('raises alarms of three kinds or more, and none stands at the end; no train is left asking', () => {
    expect(alarms.size).toBeGreaterThanOrEqual(3);
    expect(lines.at(-1)?.state.alarms).toEqual([]);
    expect(lines.at(-1)?.state.asks).toEqual([]);
    expect(lines.at(-1)?.state.tags).toEqual([]);
  });

  test('has a retract, a breaker and its reset, a hand-off, and what a club night brings', () => {
    const told = doneVerbs(lines);
    const wanted = [
      ...['retract', 'breaker-tripped', 'breaker-reset', 'hand-off', 'set-out', 'pick-up', 'grant-limits'],
      ...['release-limits', 'add-train', 'change-cab', 'tag', 'untag', 'derailed', 'rerailed', 'settle'],
    ];
    expect(wanted.filter((verb) => !told.has(verb))).toEqual([]);
    const guest = events.find(({ input }) => input.do === 'add-train')?.input;
    expect(
      events.some(
        ({ input, outcome }) =>
          outcome === 'done' &&
          input.do === 'place-train' &&
          guest?.do === 'add-train' &&
          input.train === guest.train,
      ),
    ).toBe(true);
    const second = events.flatMap(({ input }) =>
      input.do === 'assign-cab' && input.cab === '2' ? [input.person] : [],
    );
    expect(new Set(second).size).toBe(2);
    const broken = events.findIndex(({ input }) => input.do === 'tag' && input.thing === '2');
    expect(events.slice(broken).some(({ input }) => input.do === 'change-cab')).toBe(true);
  });

  test('has a break in which every placed train and every knob is reported before it goes on', () => {
    const stop = events.findIndex(({ input }) => input.do === 'stop-all' && input.kind === 'break');
    const resume = events.findIndex(({ input, outcome }) => input.do === 'resume' && outcome === 'done');
    expect(stop).toBeGreaterThan(0);
    expect(resume).toBeGreaterThan(stop);
    const called = events.slice(stop, resume).map(({ input }) => input);
    const placed = Object.entries(lines[stop]?.state.trains ?? {}).flatMap(([id, t]) =>
      t.placed ? [id] : [],
    );
    expect(called.flatMap((input) => (input.do === 'train-at' ? [input.train] : [])).sort()).toEqual(
      placed.sort(),
    );
    expect(called.flatMap((input) => (input.do === 'selector-stands-at' ? [input.selector] : []))).toEqual(
      demoRailroad.selectors.map(({ id }) => id),
    );
  });

  test('ends what it begins: the same seed gives the same evening, and no train is off the rails', () => {
    expect(demoEvening(seed)).toEqual(events.map(({ at, input }) => ({ at, input })));
    expect(Object.values(lines.at(-1)?.state.trains ?? {}).some(({ derailed }) => derailed)).toBe(false);
  });
});
