/**
 * A plan as times, for charts and for the hands: when each head comes into a block and each tail goes out of it, the blocking time of
 * each block, the hands and the voice as queues, what is lost at starts. Worked out from the moves and throws alone, good or bad.
 *
 * Blocking time after J. Pachl, "Railway Operation and Control", ch. 3: here from the first throw for a block until it is given back.
 */
import type { BlockId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Spot } from '../railroad/travel.ts';
import type { Millimetres, Seconds } from '../units.ts';
import type { PlanOptions } from './plan/options.ts';
import type { PlanMove, PlanThrow } from './plan-answer.ts';
import type { Situation, SituationTrain } from './situation.ts';
import { comesTo, goesOnFrom, type HeadLine, headLine } from './timing/head-line.ts';
import { type BlockStretch, blockStretches } from './timing/stretches.ts';
import { throwsForVisit } from './timing/visit-throws.ts';

/** One stay of a train in a block. Null times: it stood there at first, or it stays there at the end. */
export interface BlockTime {
  readonly train: TrainId;
  readonly block: BlockId;
  readonly headIn: Seconds | null;
  readonly tailOut: Seconds | null;
  /** Blocked from the first throw for it (its head's coming where nothing is thrown) … */
  readonly from: Seconds | null;
  /** … until it is given back, the margin behind its tail. */
  readonly till: Seconds | null;
  /** The throws for it, as places in the plan's list. */
  readonly throws: readonly number[];
  /** Where the block lies on the train's own way: millimetres of the head from where it stood at first. */
  readonly fromMm: Millimetres;
  readonly tillMm: Millimetres;
  /** Its track there, in the order of the way. */
  readonly over: readonly Spot[];
}

/** A piece of work of the hands or the voice. */
export interface Work {
  readonly at: Seconds;
  readonly till: Seconds;
  /** The place of the throw, or of the move that the words are for, in the plan's list. */
  readonly of: number;
}

/** What a start from a stand costs. */
export interface LostTime {
  readonly train: TrainId;
  readonly move: number;
  readonly at: Seconds;
  readonly seconds: Seconds;
}

export interface BlockOrder {
  readonly block: BlockId;
  /** The trains in the order in which they have it; the same one again where it comes again. */
  readonly trains: readonly TrainId[];
}

export interface PlanTiming {
  /** By train as in the situation, then in the order of its way. */
  readonly blocks: readonly BlockTime[];
  /** The head of each train over time, for the time-distance chart. */
  readonly lines: readonly HeadLine[];
  readonly hands: readonly Work[];
  readonly voice: readonly Work[];
  readonly lost: readonly LostTime[];
  /** Who has each block after whom: what is kept when a plan is carried out and a train is late. */
  readonly order: readonly BlockOrder[];
  /** The end of the last move or throw. */
  readonly end: Seconds;
  /** Most throws that begin within any sixty seconds, and the share of the whole time that the hands are at work. */
  readonly handsPeak: number;
  readonly handsShare: number;
}

const MINUTE: Seconds = 60;

function stayOf(line: HeadLine, train: SituationTrain, stretch: BlockStretch): BlockTime {
  const { fromMm, tillMm } = stretch;
  const headIn = fromMm < 0 ? null : goesOnFrom(line, fromMm);
  const tailOut = comesTo(line, tillMm + train.lengthMm);
  return { ...stretch, train: train.id, headIn, tailOut, from: headIn, till: tailOut, throws: [] };
}

/** Stays with what the hands do for them: every throw counts for the first stay that needs it and comes after it. */
function withThrows(
  railroad: Railroad,
  stays: readonly BlockTime[],
  throws: readonly PlanThrow[],
  { marginSeconds }: PlanOptions,
): readonly BlockTime[] {
  const byArrival = [...stays].sort((one, other) => (one.headIn ?? -1) - (other.headIn ?? -1));
  const taken = new Set<number>();
  const found = new Map<BlockTime, readonly number[]>();
  for (const stay of byArrival) {
    const own = stay.headIn === null ? [] : throwsForVisit(railroad, stay.block, stay.headIn, throws);
    const mine = own.filter((place) => !taken.has(place));
    for (const place of mine) taken.add(place);
    found.set(stay, mine);
  }
  return stays.map((stay) => {
    const own = found.get(stay) ?? [];
    const first = own.reduce((least, place) => Math.min(least, throws[place]?.at ?? least), stay.headIn ?? 0);
    return {
      ...stay,
      throws: own,
      from: stay.headIn === null ? null : first,
      till: stay.tailOut === null ? null : stay.tailOut + marginSeconds,
    };
  });
}

function orderOf(stays: readonly BlockTime[]): readonly BlockOrder[] {
  const byBlock = new Map<BlockId, BlockTime[]>();
  for (const stay of stays) byBlock.set(stay.block, [...(byBlock.get(stay.block) ?? []), stay]);
  return [...byBlock].map(([block, list]) => ({
    block,
    trains: [...list]
      .sort((one, other) => (one.headIn ?? -1) - (other.headIn ?? -1))
      .map(({ train }) => train),
  }));
}

function startsOf(moves: readonly PlanMove[], { startSeconds }: PlanOptions): readonly LostTime[] {
  if (startSeconds === 0) return [];
  return moves.flatMap((move, index): LostTime[] => {
    const touches = moves.some(
      (other) => other.train === move.train && Math.abs(other.end - move.start) < 0.002,
    );
    return touches ? [] : [{ train: move.train, move: index, at: move.start, seconds: startSeconds }];
  });
}

/** Most throws that begin within any sixty seconds. */
function peak(throws: readonly PlanThrow[]): number {
  const begins = throws.map(({ at }) => at).sort((one, other) => one - other);
  return begins.reduce((most, at, index) => {
    const till = begins.findIndex((other) => other >= at + MINUTE);
    return Math.max(most, (till < 0 ? begins.length : till) - index);
  }, 0);
}

/**
 * The times of a plan.
 *
 * @param plan moves and throws as `plan` answers them, or as somebody has dragged them about: they are not judged here
 */
export function planTiming(
  railroad: Railroad,
  situation: Situation,
  plan: { readonly moves: readonly PlanMove[]; readonly throws: readonly PlanThrow[] },
  options: PlanOptions,
): PlanTiming {
  const lines = situation.trains.map((train) => headLine(railroad, train, plan.moves, options));
  const stays = situation.trains.flatMap((train, index) => {
    const line = lines[index];
    return line === undefined
      ? []
      : blockStretches(railroad, train, line).map((stretch) => stayOf(line, train, stretch));
  });
  const blocks = withThrows(railroad, stays, plan.throws, options);
  const hands = plan.throws.map(({ at }, of): Work => ({ at, till: at + options.throwSeconds, of }));
  const { talkSeconds } = options;
  const voice =
    talkSeconds === 0
      ? []
      : plan.moves.map(({ start }, of): Work => ({ at: start - talkSeconds, till: start, of }));
  const end = Math.max(0, ...plan.moves.map((move) => move.end), ...hands.map(({ till }) => till));
  return {
    blocks,
    lines,
    hands,
    voice,
    lost: startsOf(plan.moves, options),
    order: orderOf(blocks),
    end,
    handsPeak: peak(plan.throws),
    handsShare: end === 0 ? 0 : (plan.throws.length * options.throwSeconds) / end,
  };
}
