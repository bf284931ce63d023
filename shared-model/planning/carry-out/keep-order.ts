/**
 * A plan kept as an order: for each block the trains in the order in which they have it, and no times. A train that is late keeps the
 * others waiting at the blocks that it has before them and nowhere else, so the plan stays valid and nothing locks that did not lock in it.
 */
import type { BlockId, EdgeId, NodeId, TrainId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Seconds } from '../../units.ts';
import type { PlanAnswer, PlanThrow } from '../plan-answer.ts';
import type { PlanOrder } from '../rehearsal/plan-orders.ts';
import type { Situation, SituationTrain } from '../situation.ts';
import { comesTo, type HeadLine } from '../timing/head-line.ts';
import type { BlockOrder, BlockTime, PlanTiming } from '../timing.ts';

/** A stay that has to be over: the train must have left that block, for the time that the number on its way says. */
export interface StayToEnd {
  readonly train: TrainId;
  readonly block: BlockId;
  /** Its place on the train's way. */
  readonly stay: number;
}

export interface KeptOrder {
  readonly order: PlanOrder;
  /** Places on the train's way of the blocks that it is taken into. */
  readonly enters: readonly number[];
  /** What has to be over before it may be given. */
  readonly after: readonly StayToEnd[];
}

export interface KeptPlan {
  /** The blocks of each train in the order in which it has them, from its tail on. */
  readonly ways: ReadonlyMap<TrainId, readonly BlockId[]>;
  /** How many of them each train has entered at the beginning. */
  readonly begun: ReadonlyMap<TrainId, number>;
  /** In the order in which they were planned. */
  readonly orders: readonly KeptOrder[];
}

/** A train that was on its way by an earlier order when the plan was made, which counts it as having got there. */
export interface UnderWay {
  /** From its tail's block to the end of that order, in order. */
  readonly blocks: readonly BlockId[];
  /** How many of them it had entered. */
  readonly entered: number;
}
export type TrainsUnderWay = ReadonlyMap<TrainId, UnderWay>;

/** A stay of a train with its place on the train's way. */
interface Placed extends StayToEnd {
  readonly time: BlockTime | null;
}

const stoodInAtFirst = ({ headIn }: BlockTime): boolean => headIn === null;

function placedStays(timing: PlanTiming, underWay: TrainsUnderWay): ReadonlyMap<TrainId, readonly Placed[]> {
  const found = new Map<TrainId, Placed[]>();
  const add = (train: TrainId, block: BlockId, time: BlockTime | null): void => {
    const own = found.get(train) ?? [];
    own.push({ train, block, stay: own.length, time });
    found.set(train, own);
  };
  for (const [train, { blocks }] of underWay) {
    // Where the plan has it stand at first are the last blocks of that way.
    const stands = timing.blocks.filter((time) => time.train === train && stoodInAtFirst(time)).length;
    for (const block of blocks.slice(0, Math.max(0, blocks.length - stands))) add(train, block, null);
  }
  for (const time of timing.blocks) add(time.train, time.block, time);
  return found;
}

/** The stays of a block in the order in which the trains have it: those that the plan does not know come first. */
function inOrder(
  { block, trains }: BlockOrder,
  stays: ReadonlyMap<TrainId, readonly Placed[]>,
): readonly Placed[] {
  const of = (train: TrainId): readonly Placed[] =>
    (stays.get(train) ?? []).filter((stay) => stay.block === block);
  const before = [...stays.keys()].flatMap((train) => of(train).filter(({ time }) => time === null));
  const seen = new Map<TrainId, number>();
  const planned = trains.flatMap((train) => {
    const place = seen.get(train) ?? 0;
    seen.set(train, place + 1);
    return of(train).filter(({ time }) => time !== null)[place] ?? [];
  });
  return [...before, ...planned];
}

/** A diamond that a train passes: the stay that it comes to it from, and the one that it is in behind it (mostly the same). */
interface Passing {
  readonly diamond: NodeId;
  readonly from: Placed;
  readonly into: Placed;
  /** When its head passes it; before the beginning where it lies under the train at first. */
  readonly at: Seconds;
}

function diamondBetween({ document }: Railroad, one: EdgeId, other: EdgeId): NodeId | null {
  for (const node of document.nodes)
    if (node.kind === 'crossing' && node.insulated) {
      const edges: readonly string[] = node.ways.flat();
      if (edges.includes(one) && edges.includes(other)) return node.id;
    }
  return null;
}

const HAIR_MM = 1e-6;

/** The diamonds of insulated crossings on a train's way, those under it at first among them: they are had by one train at a time, as blocks are. */
function passingsOf(
  railroad: Railroad,
  trail: SituationTrain['trail'],
  line: HeadLine,
  own: readonly Placed[],
): readonly Passing[] {
  const lengthOf = (edge: EdgeId): number => railroad.edges.get(edge)?.length ?? 0;
  const under = trail.map(({ edge }) => edge).reverse();
  const all = [...under, ...line.edges];
  let mm = -under.reduce((sum, edge) => sum + lengthOf(edge), 0);
  return all.flatMap((edge, index) => {
    const at = mm;
    mm += lengthOf(edge);
    const before = all[index - 1];
    const diamond = before === undefined ? null : diamondBetween(railroad, before, edge);
    const from = own.find(
      ({ time }) => time !== null && time.fromMm < at - HAIR_MM && at <= time.tillMm + HAIR_MM,
    );
    const into = own.find(
      ({ time }) => time !== null && time.fromMm <= at + HAIR_MM && at < time.tillMm - HAIR_MM,
    );
    return diamond === null || from === undefined || into === undefined
      ? []
      : [{ diamond, from, into, at: at <= 0 ? -1 : (comesTo(line, at) ?? 0) }];
  });
}

/** What a throw waits for, as stays: of several in that block, the last that is over before it. */
function waitedFor(
  { at, waitsFor }: PlanThrow,
  stays: ReadonlyMap<TrainId, readonly Placed[]>,
): readonly Placed[] {
  return waitsFor.flatMap(
    ({ train, block }) =>
      (stays.get(train) ?? []).findLast(
        (stay) => stay.block === block && stay.time?.tailOut != null && stay.time.tailOut <= at + 0.01,
      ) ?? [],
  );
}

/**
 * Keeps a plan as an order.
 *
 * @param timing the times of that plan; only which train comes before which is taken from them
 * @param orders its orders (`ordersOfPlan`)
 * @param underWay the trains that were on their way by earlier orders when the plan was made
 */
export function keepOrder(
  railroad: Railroad,
  situation: Situation,
  { throws }: Pick<PlanAnswer, 'throws'>,
  timing: PlanTiming,
  orders: readonly PlanOrder[],
  underWay: TrainsUnderWay = new Map(),
): KeptPlan {
  const stays = placedStays(timing, underWay);
  const all = [...stays.values()].flat();
  const placeOf = (time: BlockTime): Placed | undefined => all.find((stay) => stay.time === time);
  const byBlock = new Map(timing.order.map((order) => [order.block, inOrder(order, stays)]));
  const passings = timing.lines
    .flatMap((line) => {
      const train = situation.trains.find(({ id }) => id === line.train);
      return train === undefined ? [] : passingsOf(railroad, train.trail, line, stays.get(line.train) ?? []);
    })
    .sort((one, other) => one.at - other.at);

  const before = (stay: Placed): readonly Placed[] => {
    const inBlock = byBlock.get(stay.block) ?? [];
    return [
      ...inBlock.slice(0, Math.max(0, inBlock.indexOf(stay))),
      ...passings.flatMap(({ diamond, into }, place) =>
        into === stay
          ? passings
              .slice(0, place)
              .filter((passing) => passing.diamond === diamond)
              .map(({ from }) => from)
          : [],
      ),
      ...(stay.time?.throws ?? []).flatMap((place) => {
        const thrown = throws[place];
        return thrown === undefined ? [] : waitedFor(thrown, stays);
      }),
    ];
  };
  return {
    ways: new Map([...stays].map(([train, own]) => [train, own.map(({ block }) => block)])),
    begun: new Map(
      [...stays].map(([train, own]) => [
        train,
        underWay.get(train)?.entered ?? own.filter(({ time }) => time?.headIn === null).length,
      ]),
    ),
    orders: orders.map((order): KeptOrder => {
      const enters = order.enters.flatMap((time) => placeOf(time) ?? []);
      const after = [...new Set(enters.flatMap(before))].filter(({ train }) => train !== order.train);
      return {
        order,
        enters: enters.map(({ stay }) => stay),
        after: after.map(({ train, block, stay }) => ({ train, block, stay })),
      };
    }),
  };
}
