/** What was planned beside what happened: who came into each block after whom, when, and how late. */
import type { BlockId, TrainId } from '../../ids.ts';
import type { SessionEvent } from '../../session/event.ts';
import { evolve } from '../../session/fold.ts';
import type { SessionState, TrainNow } from '../../session/state.ts';
import { entriesOf } from '../../session/world.ts';
import type { Seconds } from '../../units.ts';
import type { BlockTime } from '../timing.ts';

/** A train that came to be in a block. */
export interface Entered {
  readonly train: TrainId;
  readonly block: BlockId;
  /** Seconds since the session was opened. */
  readonly at: Seconds;
}

/**
 * Who entered which block, read from how the blocks of each train changed: a report, an advance and a correction all count.
 *
 * @param from number of the first entry that counts
 */
export function enteredIn(
  initial: SessionState,
  events: readonly SessionEvent[],
  from: number,
): readonly Entered[] {
  const found: Entered[] = [];
  let before = initial;
  for (const event of events) {
    const after = evolve(before, event);
    if (event.entry >= from && after.trains !== before.trains)
      for (const [train, now] of entriesOf<TrainId, TrainNow>(after.trains)) {
        const had = before.trains[train]?.blocks ?? [];
        // The head's block comes first in the list; of several entered at one report the farthest is the newest.
        for (const block of [...now.blocks].reverse())
          if (!had.includes(block) && before.trains[train]?.placed === true)
            found.push({ train, block, at: event.at });
      }
    before = after;
  }
  return found;
}

export interface Compared {
  readonly train: TrainId;
  readonly block: BlockId;
  /** Seconds after the plan's beginning. */
  readonly planned: Seconds;
  /** Seconds after the evening's beginning of it; null: it has not come there. */
  readonly happened: Seconds | null;
  /** Seconds behind the plan; null where it has not come there. */
  readonly late: Seconds | null;
  /** It came into the block in another place among the trains than was planned. */
  readonly outOfOrder: boolean;
}

/**
 * Compares a plan with what happened since it was made real.
 *
 * @param stays of the plan's timing
 * @param entered of the evening, in order
 * @param began the second of the session at which the plan's second 0 was
 */
export function comparedWith(
  stays: readonly BlockTime[],
  entered: readonly Entered[],
  began: Seconds,
): readonly Compared[] {
  const planned = stays
    .flatMap(({ train, block, headIn }) => (headIn === null ? [] : [{ train, block, headIn }]))
    .sort((one, other) => one.headIn - other.headIn);
  const used = new Set<Entered>();
  const rows = planned.map(({ train, block, headIn }) => {
    const real = entered.find((one) => one.train === train && one.block === block && !used.has(one));
    if (real !== undefined) used.add(real);
    return { train, block, headIn, real };
  });
  /** For each block, the trains in the order in which they came, among the arrivals that were planned. */
  const came = [...used].sort((one, other) => one.at - other.at);
  const arrived = rows.filter(({ real }) => real !== undefined);
  return rows.map((row): Compared => {
    const { train, block, headIn, real } = row;
    const happened = real === undefined ? null : real.at - began;
    const place = arrived.filter((one) => one.block === block).indexOf(row);
    return {
      train,
      block,
      planned: headIn,
      happened,
      late: happened === null ? null : happened - headIn,
      outOfOrder: happened !== null && came.filter((one) => one.block === block)[place]?.train !== train,
    };
  });
}
