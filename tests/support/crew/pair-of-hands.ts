/** One pair of hands: throws in the order in which they are wanted, each when what it moves has been clear for a while. */
import type { BlockId, NodeId, TrainId } from '../../../shared-model/ids.ts';
import type { PlanOptions } from '../../../shared-model/planning/plan/options.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import type { Throw } from '../../../shared-model/session/state.ts';
import type { DoneThrow } from './crew-wishes.ts';
import { HAIR } from './engine.ts';

export interface Wish {
  readonly train: TrainId;
  readonly one: Throw;
  /** Which comes first of those that may be done. */
  readonly rank: number;
  /** Of a throw of the plan: not before its time there, as the minute may only hold so many, and whether what it waits for is over. */
  readonly notBefore?: number;
  readonly isDue?: () => boolean;
}
interface Wanted extends Wish {
  doneAt: number | null;
}

/** The blocks whose power or track a throw changes. */
export function touchedBy(railroad: Railroad, one: Throw): readonly BlockId[] {
  if (one.kind === 'turnout')
    return (railroad.edgesAt.get(one.id as NodeId) ?? []).flatMap(
      (edge) => railroad.blockOfEdge.get(edge) ?? [],
    );
  const found = new Set<BlockId>();
  for (let size = -1; size !== found.size; ) {
    size = found.size;
    for (const { id, source } of railroad.document.blocks)
      if (
        ('selector' in source && source.selector === one.id) ||
        ('toggle' in source && (source.toggle === one.id || found.has(source.from)))
      )
        found.add(id);
  }
  return [...found];
}

function inputOf({ kind, id, to }: Throw): SessionInput {
  const knob = id as never;
  if (kind === 'selector') return { do: 'turn-selector', selector: knob, position: to as never };
  if (kind === 'turnout') return { do: 'throw-turnout', turnout: knob, position: to as never };
  return { do: 'set-toggle', toggle: knob, on: to === true };
}

const LONG_AGO = -1000;

export interface Hands {
  /** Takes up throws; those that are wanted already stay as they are. */
  want(list: readonly Wish[]): void;
  /** When the throws for a train in a block have been done so long that it may come; infinity while one is not. */
  readyFrom(train: TrainId, block: BlockId): number;
  /** The same as somebody at the knobs would guess it, from what is still to be thrown before. */
  expectedFrom(train: TrainId, block: BlockId, now: number): number;
  /** Begins or ends a throw that is due; an ended one gives what to report. */
  work(now: number): { readonly input: SessionInput | null } | null;
  /** When there is something to do next, later than now. */
  next(now: number): number;
  readonly done: readonly DoneThrow[];
}

/**
 * @param clearedAt when each block was left last
 * @param lasts seconds of the next throw
 */
export function pairOfHands(
  railroad: Railroad,
  options: PlanOptions,
  clearedAt: ReadonlyMap<BlockId, number>,
  lasts: () => number,
): Hands {
  const all: Wanted[] = [];
  const done: DoneThrow[] = [];
  let at: { readonly wanted: Wanted; readonly till: number } | null = null;
  const waiting = (): readonly Wanted[] =>
    all.filter((wanted) => wanted.doneAt === null && wanted !== at?.wanted);
  const mayBegin = ({ one, notBefore, isDue }: Wanted): number =>
    Math.max(
      isDue?.() === false ? Number.POSITIVE_INFINITY : (notBefore ?? 0),
      ...touchedBy(railroad, one).map((block) => (clearedAt.get(block) ?? LONG_AGO) + options.marginSeconds),
      done.at(-1)?.till ?? LONG_AGO,
      (done.at(-options.throwsPerMinute)?.at ?? LONG_AGO) + 60,
    );
  return {
    done,
    want: (list) => {
      for (const wish of list)
        if (
          !all.some(
            ({ doneAt, one, train }) => doneAt === null && one.id === wish.one.id && train === wish.train,
          )
        )
          all.push({ ...wish, doneAt: null });
    },
    readyFrom: (train, block) =>
      Math.max(
        0,
        ...all
          .filter((wanted) => wanted.train === train && wanted.one.block === block)
          .map(({ doneAt }) => (doneAt === null ? Number.POSITIVE_INFINITY : doneAt + options.marginSeconds)),
      ),
    expectedFrom: (train, block, now) => {
      let free = at?.till ?? now;
      let last = Math.max(
        at?.wanted.train === train && at.wanted.one.block === block ? free + options.marginSeconds : 0,
        ...all
          .filter((wanted) => wanted.train === train && wanted.one.block === block)
          .flatMap(({ doneAt }) => (doneAt === null ? [] : doneAt + options.marginSeconds)),
      );
      for (const wanted of [...waiting()].sort((one, other) => one.rank - other.rank)) {
        const isOwn = wanted.train === train && wanted.one.block === block;
        // What waits for somebody else is not what the hands are at next.
        if (!isOwn && mayBegin(wanted) === Number.POSITIVE_INFINITY) continue;
        free = Math.max(free, mayBegin(wanted)) + options.throwSeconds;
        if (isOwn) last = free + options.marginSeconds;
      }
      return last;
    },
    work: (now) => {
      if (at !== null) {
        if (at.till > now + HAIR) return null;
        const { wanted, till } = at;
        at = null;
        wanted.doneAt = till;
        return { input: inputOf(wanted.one) };
      }
      // What comes first and can be begun in less time than a throw takes is waited for.
      const [first] = waiting()
        .filter(
          (wanted) => mayBegin(wanted) < now + options.throwSeconds - HAIR || mayBegin(wanted) <= now + HAIR,
        )
        .sort((one, other) => one.rank - other.rank);
      if (first === undefined || mayBegin(first) > now + HAIR) return null;
      at = { wanted: first, till: now + lasts() };
      const { kind, id, to } = first.one;
      done.push({ at: now, till: at.till, kind, id, to, waitsFor: [] });
      return { input: null };
    },
    // What could be begun by now was let wait for something that comes before it.
    next: (now) =>
      at?.till ??
      Math.min(
        Number.POSITIVE_INFINITY,
        ...waiting()
          .map(mayBegin)
          .filter((begins) => begins > now + HAIR),
      ),
  };
}
