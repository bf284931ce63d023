/** The throws that a run needs, each as early as trains and hands allow: what it touches is empty, or its sections are put off first. */
import type { Seconds } from '../../units.ts';
import { must } from '../track-table.ts';
import type { Need } from './knobs.ts';
import { MINUTE } from './options.ts';
import { NOBODY, OBSTACLE, type OrderState } from './order-state.ts';
import type { PlanTask } from './plan-task.ts';
import { handsQueue } from './slots.ts';

export interface Thrower {
  /** Throws what stands wrong; the end of the last throw (0 when nothing is thrown), Infinity where it cannot be done. */
  throwAll(needs: readonly Need[]): Seconds;
  /** Nothing is thrown yet. */
  clear(): void;
}

export function thrower({ knobs, options }: PlanTask, state: OrderState): Thrower {
  const { throwSeconds, marginSeconds, throwsPerMinute } = options;
  const { holder, freeAt, quietFrom, readBy, values, changedAt, ready, runsAhead } = state;
  const hands = handsQueue(throwSeconds, throwsPerMinute, MINUTE);

  /** Whether whoever is in a block stands there for good. */
  const staysFor = (block: number): boolean => {
    const by = holder[block] as number;
    return by === OBSTACLE || (by >= 0 && runsAhead[by] === 0);
  };

  const record = (knob: number, value: number, from: Seconds, over: readonly number[]): Seconds => {
    const at = hands.book(Math.max(0, from, changedAt[knob] as number));
    if (at === Number.POSITIVE_INFINITY) return at;
    state.throws.push({ at, knob, value, run: state.place, over });
    values[knob] = value;
    changedAt[knob] = at + throwSeconds;
    return at + throwSeconds;
  };

  /** Puts a toggle off under trains that stand there for good; the end of the throw, Infinity where it cannot be done. */
  const putOff = (toggle: number, blocks: readonly number[]): Seconds => {
    let from = 0;
    for (const block of blocks) {
      const by = holder[block] as number;
      if (by === NOBODY) from = Math.max(from, (freeAt[block] as number) + marginSeconds);
      else if (!staysFor(block)) return Number.POSITIVE_INFINITY;
      else if (by >= 0) from = Math.max(from, ready[by] as number);
    }
    const end = record(toggle, 0, from, blocks);
    for (const block of blocks) quietFrom[block] = Math.max(quietFrom[block] as number, end + marginSeconds);
    return end;
  };

  /** The blocks that a block feeds through toggles that are on, with itself. */
  const fedThrough = (block: number): number[] => [
    block,
    ...must(knobs.behind[block]).flatMap((next) => (values[next.toggle] === 1 ? fedThrough(next.block) : [])),
  ];

  /**
   * All that a knob feeds (or that its edges are in) is empty before it is thrown; sections in which a train stands for good are put
   * off first. Gathers the blocks into `blocks`; the earliest beginning, Infinity where it cannot be done.
   */
  const emptied = (block: number, blocks: number[]): Seconds => {
    if (holder[block] !== NOBODY) return Number.POSITIVE_INFINITY;
    blocks.push(block);
    readBy[block] = state.place;
    let from = (freeAt[block] as number) + marginSeconds;
    for (const next of must(knobs.behind[block])) {
      from = Math.max(from, changedAt[next.toggle] as number);
      if (values[next.toggle] !== 1) continue;
      const inner =
        holder[next.block] === NOBODY
          ? emptied(next.block, blocks)
          : putOff(next.toggle, fedThrough(next.block));
      from = Math.max(from, inner);
    }
    return from;
  };

  const throwKnob = (knob: number, value: number): Seconds => {
    const lever = must(knobs.knobs[knob]).kind === 'turnout';
    const blocks: number[] = [];
    let from = 0;
    for (const block of must(knobs.blocks[knob])) {
      if (!lever) from = Math.max(from, emptied(block, blocks));
      else if (holder[block] !== NOBODY) return Number.POSITIVE_INFINITY;
      else {
        blocks.push(block);
        readBy[block] = state.place;
        from = Math.max(from, (freeAt[block] as number) + marginSeconds);
      }
      if (from === Number.POSITIVE_INFINITY) return from;
    }
    const end = record(knob, value, from, blocks);
    for (const block of blocks) quietFrom[block] = Math.max(quietFrom[block] as number, end + marginSeconds);
    return end;
  };

  /** When the last train has left what a knob feeds by itself. */
  const leftFrom = ({ knob }: Need): Seconds =>
    must(knobs.blocks[knob]).reduce((from, block) => Math.max(from, freeAt[block] as number), 0);

  /** Throws what stands wrong: what can be thrown first goes first, so that the hands are never idle for want of an order. */
  const throwAll = (needs: readonly Need[]): Seconds => {
    let wrong = 0;
    for (const { knob, value } of needs) if (values[knob] !== value) wrong += 1;
    if (wrong === 0) return 0;
    const inOrder = wrong === 1 ? needs : needs.toSorted((one, other) => leftFrom(one) - leftFrom(other));
    let end = 0;
    for (const { knob, value } of inOrder)
      if (values[knob] !== value) end = Math.max(end, throwKnob(knob, value));
    return end;
  };

  return { throwAll, clear: hands.clear };
}
