/** When each train waited, and for what. */
import type { TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { AskNow, SessionState } from '../../session/state.ts';
import type { Seconds } from '../../units.ts';
import { chargedTo } from '../charged.ts';
import { hadBy } from '../concerned.ts';
import type { EveningReader, Step } from '../pass.ts';
import type { WaitSpan } from './chart-data.ts';

type Open = Omit<WaitSpan, 'to'>;

/** Follows the asks from a state on. */
export class Waiting implements EveningReader {
  readonly #spans: WaitSpan[] = [];
  #open: ReadonlyMap<TrainId, Open> = new Map();
  readonly #railroad: Railroad;
  readonly #from: Seconds;

  constructor(railroad: Railroad, initial: SessionState, from: Seconds) {
    this.#railroad = railroad;
    this.#from = from;
    this.#follow(initial, from);
  }

  take({ before, after, event }: Step): void {
    if (before.asks !== after.asks || before.blocks !== after.blocks) this.#follow(after, event.at);
  }

  #waitOf(state: SessionState, ask: AskNow, at: Seconds): Open {
    const { train } = ask;
    const was = this.#open.get(train);
    const began = was === undefined ? Math.max(this.#from, Math.min(ask.calledAt ?? ask.since, at)) : at;
    return { train, ...hadBy(state, train), ...chargedTo(this.#railroad, state, ask), from: began };
  }

  #follow(state: SessionState, at: Seconds): void {
    const now = new Map<TrainId, Open>();
    for (const ask of state.asks) {
      const was = this.#open.get(ask.train);
      const is = this.#waitOf(state, ask, at);
      const same =
        was !== undefined && was.thing === is.thing && was.owner === is.owner && was.cab === is.cab;
      now.set(ask.train, same ? was : is);
    }
    for (const [train, was] of this.#open) if (now.get(train) !== was) this.#end(was, at);
    this.#open = now;
  }

  #end(was: Open, to: Seconds): void {
    if (was.from < to) this.#spans.push({ ...was, to });
  }

  /** The waits up to a moment, in the order in which they began. */
  spans(to: Seconds): readonly WaitSpan[] {
    for (const was of this.#open.values()) this.#end(was, to);
    this.#open = new Map();
    return this.#spans.toSorted((a, b) => a.from - b.from);
  }
}
