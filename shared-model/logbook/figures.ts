/** The figures of an evening, from the fold alone: who ran what, how far, who waited for whom, what was refused. */
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from '../session/event.ts';
import { evolve } from '../session/fold.ts';
import type { SessionInput } from '../session/input.ts';
import type { AskNow, SessionState } from '../session/state.ts';
import type { Millimetres, Seconds } from '../units.ts';
import { distanceEntered } from './distance.ts';
import { Tally } from './tally.ts';

/** What is counted alike for a person, a cab and a train. */
export interface RunFigures {
  readonly id: string;
  /** A person: with a cab. A cab: with a person. A train: on the track. */
  readonly seconds: Seconds;
  /** By blocks reported; running inside limits is not in it. */
  readonly distanceMm: Millimetres;
  /** Authorities granted; lengthening one is not another. */
  readonly moves: number;
  readonly handOffs: number;
  readonly waitSeconds: Seconds;
  readonly refusals: number;
  readonly alarms: number;
}

export interface BlockFigures {
  readonly id: string;
  readonly occupiedSeconds: Seconds;
  /** Not open: pledged, lined, occupied or disputed. */
  readonly heldSeconds: Seconds;
  /** Waiting that was charged to it. */
  readonly waitSeconds: Seconds;
  /** Its part of all waiting, 0 to 1. */
  readonly waitShare: number;
}

/** Waiting of a train for one thing; nulls where the ask was free, and only the dispatcher was waited for. */
export interface WaitFigures {
  readonly train: string;
  /** The block, turnout or other thing of the first reason. */
  readonly thing: string | null;
  readonly owner: string | null;
  readonly seconds: Seconds;
}

export interface EveningFigures {
  readonly seconds: Seconds;
  readonly runningSeconds: Seconds;
  readonly people: readonly RunFigures[];
  readonly cabs: readonly RunFigures[];
  readonly trains: readonly RunFigures[];
  readonly blocks: readonly BlockFigures[];
  readonly waits: readonly WaitFigures[];
  readonly refusals: readonly { readonly code: string; readonly count: number }[];
  readonly alarms: readonly { readonly code: string; readonly count: number }[];
  readonly overrides: readonly { readonly entry: number; readonly at: Seconds; readonly why: string }[];
  /** Throws done in each minute of the session, the first minute first. */
  readonly throwsPerMinute: readonly number[];
}

const THROWS: ReadonlySet<string> = new Set(['turn-selector', 'throw-turnout', 'set-toggle']);

/** The order itself where it was carried out against a refusal. */
export const plainInput = (input: SessionInput): SessionInput =>
  input.do === 'override' ? input.order : input;

/** The train that an input is about, or null. */
export function trainOf(state: SessionState, given: SessionInput): string | null {
  const input = plainInput(given);
  if ('train' in input && input.train !== undefined) return input.train;
  if ('authority' in input) return state.authorities[input.authority]?.train ?? null;
  return null;
}

/** The entries that were taken back; they count in nothing. */
export function retractedEntries(events: readonly SessionEvent[]): ReadonlySet<number> {
  const done = events.filter(({ outcome }) => outcome !== 'refused');
  return new Set(done.flatMap(({ input }) => (input.do === 'retract' ? [input.entry] : [])));
}

interface Charged {
  readonly train: string;
  readonly thing: string | null;
  readonly owner: string | null;
}

/** Each moment of an ask is charged to the owner in its first reason in order. */
function chargedTo(state: SessionState, { train, reasons }: AskNow): Charged {
  const [thing = null, second = null] = reasons[0]?.about ?? [];
  const owns = second !== null && (second in state.trains || second in state.cuts);
  return { train, thing, owner: owns ? second : null };
}

class Count {
  readonly people = new Tally();
  readonly cabs = new Tally();
  readonly trains = new Tally();
  readonly blocks = new Tally();
  readonly refusals = new Tally();
  readonly alarms = new Tally();
  readonly waits = new Map<string, Charged & { seconds: Seconds }>();
  runningSeconds: Seconds = 0;

  /** Adds to a train, and to the cab and the person that have it. */
  run(state: SessionState, train: string, figure: string, amount: number): void {
    const cab = Object.entries(state.trains).find(([id]) => id === train)?.[1].cab ?? null;
    const person = cab === null ? null : (state.cabs[cab]?.person ?? null);
    this.trains.add(train, figure, amount);
    if (cab !== null) this.cabs.add(cab, figure, amount);
    if (person !== null) this.people.add(person, figure, amount);
  }

  wait(state: SessionState, ask: AskNow, seconds: Seconds): void {
    const charged = chargedTo(state, ask);
    const key = JSON.stringify([charged.train, charged.thing, charged.owner]);
    const before = this.waits.get(key)?.seconds ?? 0;
    this.waits.set(key, { ...charged, seconds: before + seconds });
    this.run(state, ask.train, 'waitSeconds', seconds);
    if (charged.thing !== null) this.blocks.add(charged.thing, 'waitSeconds', seconds);
  }

  /** The time from one event to the next, in the state that held through it. */
  pass(state: SessionState, seconds: Seconds): void {
    if (state.phase === 'running') this.runningSeconds += seconds;
    for (const [cab, { person }] of Object.entries(state.cabs)) {
      if (person === null) continue;
      this.cabs.add(cab, 'seconds', seconds);
      this.people.add(person, 'seconds', seconds);
    }
    for (const [id, train] of Object.entries(state.trains))
      if (train.placed) this.trains.add(id, 'seconds', seconds);
    for (const [id, block] of Object.entries(state.blocks)) {
      if (block.state !== 'open') this.blocks.add(id, 'heldSeconds', seconds);
      if (block.state === 'occupied') this.blocks.add(id, 'occupiedSeconds', seconds);
    }
    for (const ask of state.asks) this.wait(state, ask, seconds);
  }

  /** What an entry itself adds; the state before it and after. */
  entry(railroad: Railroad, before: SessionState, after: SessionState, event: SessionEvent): void {
    const train = trainOf(before, event.input);
    if (event.outcome === 'refused') {
      for (const { code } of event.reasons) this.refusals.add(code, 'count', 1);
      if (train !== null) this.run(before, train, 'refusals', 1);
    }
    // A call before the ask was waiting too; nothing was known then but what the ask met.
    for (const ask of after.asks) {
      const isNew = !before.asks.some((one) => one.train === ask.train);
      if (isNew && ask.calledAt !== null) this.wait(after, ask, Math.max(0, ask.since - ask.calledAt));
    }
    if (event.outcome === 'refused') return;
    if (event.outcome === 'alarm') {
      for (const { code } of event.reasons) this.alarms.add(code, 'count', 1);
      if (train !== null) this.run(after, train, 'alarms', event.reasons.length);
    }
    if (event.authority !== undefined && !(event.authority in before.authorities) && train !== null)
      this.run(after, train, 'moves', 1);
    if (event.input.do === 'hand-off' && train !== null) this.run(after, train, 'handOffs', 1);
    for (const { id, distanceMm } of distanceEntered(railroad, before, after, event.input))
      this.run(after, id, 'distanceMm', distanceMm);
  }
}

const runFigures = (tally: Tally): readonly RunFigures[] =>
  tally.ids().map((id) => ({
    id,
    seconds: tally.of(id, 'seconds'),
    distanceMm: tally.of(id, 'distanceMm'),
    moves: tally.of(id, 'moves'),
    handOffs: tally.of(id, 'handOffs'),
    waitSeconds: tally.of(id, 'waitSeconds'),
    refusals: tally.of(id, 'refusals'),
    alarms: tally.of(id, 'alarms'),
  }));

const codes = (tally: Tally) => tally.ids().map((code) => ({ code, count: tally.of(code, 'count') }));

function throwsPerMinute(events: readonly SessionEvent[], seconds: Seconds): readonly number[] {
  const minutes = Array.from({ length: Math.floor(seconds / 60) + 1 }, () => 0);
  for (const { at, input } of events)
    if (THROWS.has(plainInput(input).do))
      minutes[Math.floor(at / 60)] = (minutes[Math.floor(at / 60)] ?? 0) + 1;
  return minutes;
}

/**
 * Works out the figures of an evening.
 *
 * Time is counted in the state that was shown then; an entry that was taken back counts in no number.
 *
 * @param initial the state before the first event
 * @param events all of them, in the order of the log
 */
export function eveningFigures(
  railroad: Railroad,
  initial: SessionState,
  events: readonly SessionEvent[],
): EveningFigures {
  const count = new Count();
  const retracted = retractedEntries(events);
  let state = initial;
  let at: Seconds = 0;
  for (const event of events) {
    count.pass(state, event.at - at);
    const after = evolve(state, event);
    if (!retracted.has(event.entry)) count.entry(railroad, state, after, event);
    state = after;
    at = event.at;
  }
  const good = events.filter(({ outcome, entry }) => outcome !== 'refused' && !retracted.has(entry));
  const waits = [...count.waits.values()].toSorted((a, b) => b.seconds - a.seconds);
  const waited = waits.reduce((sum, { seconds }) => sum + seconds, 0);
  return {
    seconds: at,
    runningSeconds: count.runningSeconds,
    people: runFigures(count.people),
    cabs: runFigures(count.cabs),
    trains: runFigures(count.trains),
    blocks: railroad.document.blocks.map(({ id }) => ({
      id,
      occupiedSeconds: count.blocks.of(id, 'occupiedSeconds'),
      heldSeconds: count.blocks.of(id, 'heldSeconds'),
      waitSeconds: count.blocks.of(id, 'waitSeconds'),
      waitShare: waited === 0 ? 0 : count.blocks.of(id, 'waitSeconds') / waited,
    })),
    waits,
    refusals: codes(count.refusals),
    alarms: codes(count.alarms),
    overrides: good.flatMap(({ entry, at: second, input }) =>
      input.do === 'override' ? [{ entry, at: second, why: input.why }] : [],
    ),
    throwsPerMinute: throwsPerMinute(good, at),
  };
}
