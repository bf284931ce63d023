/** Who owned which block when. */
import type { BlockId } from '../../ids.ts';
import type { BlockNow, SessionState } from '../../session/state.ts';
import { entriesOf } from '../../session/world.ts';
import type { Seconds } from '../../units.ts';
import type { EveningReader, Step } from '../pass.ts';
import type { OwnedSpan } from './chart-data.ts';

/** Follows the blocks from a state on. */
export class Ownership implements EveningReader {
  readonly #spans: OwnedSpan[] = [];
  readonly #open = new Map<BlockId, { readonly now: BlockNow; readonly from: Seconds }>();

  constructor(initial: SessionState, from: Seconds) {
    for (const [id, now] of entriesOf(initial.blocks)) this.#begin(id, now, from);
  }

  take({ before, after, event }: Step): void {
    if (before.blocks === after.blocks) return;
    for (const id of Object.keys(event.changes.blocks ?? {}) as BlockId[]) {
      this.#end(id, event.at);
      const now = after.blocks[id];
      if (now !== undefined) this.#begin(id, now, event.at);
    }
  }

  #begin(id: BlockId, now: BlockNow, from: Seconds): void {
    if (now.state !== 'open') this.#open.set(id, { now, from });
  }

  #end(id: BlockId, to: Seconds): void {
    const open = this.#open.get(id);
    this.#open.delete(id);
    if (open === undefined || open.now.state === 'open' || open.from === to) return;
    const { state, cab, train } = open.now;
    this.#spans.push({ block: id, from: open.from, to, state, cab, train });
  }

  /** What was owned up to a moment, by block in the order of `blocks` and then by time. */
  spans(blocks: readonly BlockId[], to: Seconds): readonly OwnedSpan[] {
    for (const id of [...this.#open.keys()]) this.#end(id, to);
    const order = new Map<string, number>(blocks.map((id, index) => [id, index]));
    return this.#spans.toSorted(
      (a, b) => (order.get(a.block) ?? 0) - (order.get(b.block) ?? 0) || a.from - b.from,
    );
  }
}
