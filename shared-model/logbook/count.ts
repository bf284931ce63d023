/** Counts an evening entry by entry; what is counted is made into figures when it is over. */
import type { BlockId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from '../session/event.ts';
import type { AskNow, SessionState } from '../session/state.ts';
import { entriesOf } from '../session/world.ts';
import type { Seconds } from '../units.ts';
import { blockOfThing, chargedTo } from './charged.ts';
import { hadBy, plainInput, trainOf, trainOfReason } from './concerned.ts';
import { edgesEntered, lengthOf } from './distance.ts';
import type { OverrideFigures, WaitFigures } from './figure-types.ts';
import type { EveningReader, Step } from './pass.ts';
import { Tally } from './tally.ts';

const THROWN = { 'turn-selector': 'selector', 'throw-turnout': 'turnout', 'set-toggle': 'toggle' } as const;

/** What a throw moved; null for any other event. A refused throw is none. */
export function thrownBy({ input, outcome }: SessionEvent): string | null {
  const order = plainInput(input);
  if (outcome === 'refused' || !(order.do in THROWN)) return null;
  if (order.do === 'turn-selector') return order.selector;
  if (order.do === 'throw-turnout') return order.turnout;
  return order.do === 'set-toggle' ? order.toggle : null;
}

export class Count implements EveningReader {
  readonly people = new Tally();
  readonly cabs = new Tally();
  readonly trains = new Tally();
  readonly blocks = new Tally();
  /** Of the evening as a whole: its codes. */
  readonly all = new Tally();
  readonly waits = new Map<string, WaitFigures>();
  readonly overrides: OverrideFigures[] = [];
  readonly throwsByMinute = new Map<number, number>();
  runningSeconds: Seconds = 0;
  seconds: Seconds = 0;
  readonly #railroad: Railroad;
  /** What each train waits for, or waited for last, and since when. */
  readonly #stretches = new Map<TrainId, { key: string; from: Seconds; until: Seconds }>();

  constructor(railroad: Railroad) {
    this.#railroad = railroad;
  }

  take({ before, after, event, counts }: Step): void {
    this.#pass(before, event.at - this.seconds);
    this.seconds = event.at;
    if (!counts) return;
    this.#calls(before, after);
    if (event.outcome === 'refused') this.#refused(before, after, event);
    else this.#entry(before, after, event);
  }

  /** Adds to a train, and to the cab and the person that have it. */
  #run(state: SessionState, train: TrainId, figure: string, amount: number): void {
    const { cab, person } = hadBy(state, train);
    this.trains.add(train, figure, amount);
    if (cab !== null) this.cabs.add(cab, figure, amount);
    if (person !== null) this.people.add(person, figure, amount);
  }

  #wait(state: SessionState, ask: AskNow, from: Seconds, seconds: Seconds): void {
    const { train } = ask;
    const charged = { train, ...hadBy(state, train), ...chargedTo(this.#railroad, state, ask) };
    const key = JSON.stringify(Object.values(charged));
    const known = this.waits.get(key);
    const stretch = this.#stretches.get(train);
    // One cause on end, whatever else was said meanwhile.
    const isSame = stretch?.key === key && stretch.until === from;
    const began = isSame ? stretch.from : from;
    this.#stretches.set(train, { key, from: began, until: from + seconds });
    const lasted = { from: began, seconds: from + seconds - began };
    const longest = known !== undefined && known.longest.seconds >= lasted.seconds ? known.longest : lasted;
    this.waits.set(key, { ...charged, seconds: (known?.seconds ?? 0) + seconds, longest });
    this.#run(state, train, 'waitSeconds', seconds);
    if (charged.block !== null) this.blocks.add(charged.block, 'waitSeconds', seconds);
  }

  /** The time from one event to the next, in the state that held through it. */
  #pass(state: SessionState, seconds: Seconds): void {
    if (seconds === 0) return;
    if (state.phase === 'running') this.runningSeconds += seconds;
    for (const [cab, { person }] of entriesOf(state.cabs)) {
      if (person === null) continue;
      this.cabs.add(cab, 'seconds', seconds);
      this.people.add(person, 'seconds', seconds);
    }
    for (const [id, train] of entriesOf(state.trains))
      if (train.placed) this.trains.add(id, 'seconds', seconds);
    for (const [id, block] of entriesOf(state.blocks)) {
      if (block.state !== 'open') this.blocks.add(id, 'heldSeconds', seconds);
      if (block.state === 'occupied') this.blocks.add(id, 'occupiedSeconds', seconds);
    }
    for (const ask of state.asks) this.#wait(state, ask, this.seconds, seconds);
  }

  /** A call before the ask was waiting too; nothing was known then but what the ask met. */
  #calls(before: SessionState, after: SessionState): void {
    if (after.asks === before.asks) return;
    for (const ask of after.asks) {
      const isNew = !before.asks.some((one) => one.train === ask.train);
      if (isNew && ask.calledAt !== null && ask.calledAt < ask.since)
        this.#wait(after, ask, ask.calledAt, ask.since - ask.calledAt);
    }
  }

  /** An order that was refused is one refusal of each train concerned, for however many reasons. */
  #refused(before: SessionState, after: SessionState, event: SessionEvent): void {
    const trains = new Set(event.reasons.map((reason) => trainOfReason(after, event, reason)));
    for (const train of trains) if (train !== null) this.#run(before, train, 'refusals', 1);
    this.#reasons('refusal', before, after, event);
  }

  #reasons(kind: 'refusal' | 'alarm', state: SessionState, after: SessionState, event: SessionEvent): void {
    for (const reason of event.reasons) {
      const { code, about } = reason;
      this.all.add('', `${kind}:${code}`, 1);
      const train = trainOfReason(after, event, reason);
      if (train !== null) this.#run(state, train, `${kind}:${code}`, 1);
      if (train !== null && kind === 'alarm') this.#run(state, train, 'alarms', 1);
      const block = about[0] === undefined ? null : blockOfThing(this.#railroad, about[0]);
      if (block !== null) this.blocks.add(block, `${kind}s`, 1);
    }
  }

  #entry(before: SessionState, after: SessionState, event: SessionEvent): void {
    const { input, entry, at, authority } = event;
    const train = trainOf(after, input);
    if (event.outcome === 'alarm') this.#reasons('alarm', after, after, event);
    if (authority !== undefined) {
      const was = before.authorities[authority];
      const now = after.authorities[authority];
      if (was === undefined && train !== null) this.#run(after, train, 'moves', 1);
      for (const block of new Set(now?.blocks.slice(was?.blocks.length ?? 0)))
        this.blocks.add(block, 'moves', 1);
    }
    const order = plainInput(input);
    if (order.do === 'hand-off' && train !== null) {
      this.#run(after, train, 'handOffs', 1);
      this.blocks.add(order.block, 'handOffs', 1);
    }
    if (input.do === 'override') {
      this.overrides.push({ entry, at, why: input.why, train, ...hadBy(after, train) });
      if (train !== null) this.#run(after, train, 'overrides', 1);
    }
    this.#thrown(event);
    this.#moved(before, after, event);
  }

  #thrown(event: SessionEvent): void {
    const thing = thrownBy(event);
    if (thing === null) return;
    const minute = Math.floor(event.at / 60);
    this.throwsByMinute.set(minute, (this.throwsByMinute.get(minute) ?? 0) + 1);
    const block = blockOfThing(this.#railroad, thing);
    if (block !== null) this.blocks.add(block, 'throws', 1);
  }

  #moved(before: SessionState, after: SessionState, { input }: SessionEvent): void {
    for (const { id, edges } of edgesEntered(before, after, input)) {
      this.#run(after, id, 'distanceMm', lengthOf(this.#railroad, edges));
      for (const edge of edges) {
        const block: BlockId | undefined = this.#railroad.blockOfEdge.get(edge);
        if (block !== undefined) this.blocks.add(block, 'distanceMm', lengthOf(this.#railroad, [edge]));
      }
    }
  }
}
