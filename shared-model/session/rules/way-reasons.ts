/** Reasons about the way (turnouts, crossings) and about the rest (throttles, other trains, length, load, gridlock). */
import type { NodeId, SelectorId, ThrottleId, TrainId } from '../../ids.ts';
import { isOver, supplyLimit } from '../../power/load.ts';
import type { Spot } from '../../railroad/travel.ts';
import type { Refusal } from '../../refusal.ts';
import { authoritiesInForce } from '../facts/authorities.ts';
import { feedNow, rootSelector, switchOf } from '../facts/feed.ts';
import { crossingTakers, locksOn, waysOver } from '../facts/locks.ts';
import { supplyOf } from '../facts/phase.ts';
import { blocksUnder, placedTrains, spotsUnder } from '../facts/standing.ts';
import { unique, type World } from '../world.ts';
import { isTagged } from './block-reasons.ts';
import { type MoveCase, spotsAhead, turnoutsAlong } from './move-case.ts';
import { refusal } from './sentences.ts';

/** A turnout that the way needs in one setting. */
export function turnoutReasons(
  world: World,
  train: TrainId,
  turnout: { readonly id: NodeId; readonly position?: string; readonly selfLined?: boolean },
): readonly Refusal[] {
  const { id, position } = turnout;
  const stands = world.state.turnouts[id]?.position;
  const wrong = position !== undefined && stands !== position && turnout.selfLined !== true;
  const others = locksOn(world, id).filter((lock) => lock.train !== train);
  const locked = others.some((lock) => lock.under || lock.wants !== position);
  return [
    ...(wrong && isTagged(world, id) ? [refusal(world, 'out-of-service', [id])] : []),
    ...(locked ? [refusal(world, 'turnout-locked', [id])] : []),
  ];
}

/**
 * Turnouts and insulated crossings of a way, in the order of passing. One that is passed again is asked again, for that way through it;
 * the same reason may come twice then.
 */
export function wayReasons(
  world: World,
  train: TrainId,
  head: Spot | undefined,
  spots: readonly Spot[],
): readonly Refusal[] {
  const way = head === undefined ? spots : [head, ...spots];
  return way.slice(1).flatMap((after, index) => {
    const before = way[index] ?? after;
    const node = before.toward;
    const reasons = turnoutsAlong(world.railroad, before, [after]).flatMap((turnout) =>
      turnoutReasons(world, train, turnout),
    );
    const crossing = world.railroad.nodes.get(node);
    if (crossing?.kind !== 'crossing' || !crossing.insulated) return reasons;
    const taken = waysOver(crossing, [before, after]).some(
      (over) => crossingTakers(world, crossing, over, train).length > 0,
    );
    return taken ? [...reasons, refusal(world, 'crossing-taken', [node])] : reasons;
  });
}

/** Tags on the throttles and supplies of the way, and on the train. */
export function tagReasons(world: World, train: TrainId, cabs: readonly ThrottleId[]): readonly Refusal[] {
  const supplies = unique(cabs.map((cab) => supplyOf(world, cab)));
  return [...cabs, ...supplies, train]
    .filter((thing) => isTagged(world, thing))
    .map((thing) => refusal(world, 'out-of-service', [thing]));
}

/** Other trains on track that these cabs feed now: they would start too. */
export function liveTrains(
  world: World,
  train: TrainId,
  together: readonly TrainId[],
  cabs: readonly ThrottleId[],
): readonly Refusal[] {
  return cabs.flatMap((cab) =>
    placedTrains(world)
      .filter(([id]) => id !== train && !together.includes(id))
      .flatMap(([id, other]) =>
        other.blocks
          .filter((block) => feedNow(world, block) === cab)
          .map((block) => refusal(world, 'second-train-live', [switchOf(world.railroad, block), id])),
      ),
  );
}

/** Throttles, contacts and supplies that would carry more than they may; equal is not more. */
export function loads(
  world: World,
  train: TrainId,
  together: readonly TrainId[],
  cabs: readonly ThrottleId[],
  selectors: readonly SelectorId[],
): readonly Refusal[] {
  const { railroad, state } = world;
  const ampsOf = (id: TrainId): number => state.trains[id]?.amps ?? 0;
  const sum = (ids: readonly TrainId[]): number => unique(ids).reduce((amps, id) => amps + ampsOf(id), 0);
  const throttles = cabs.filter((cab) =>
    isOver(sum([train, ...together]), railroad.throttles.get(cab)?.maxAmps ?? Infinity),
  );
  const contacts = selectors.filter((id) =>
    isOver(ampsOf(train), railroad.selectors.get(id)?.contactAmps ?? Infinity),
  );
  const supplies = unique(cabs.map((cab) => supplyOf(world, cab))).filter((id) => {
    const supply = railroad.document.supplies.find((other) => other.id === id);
    const running = authoritiesInForce(state)
      .map(({ authority }) => authority.train)
      .filter((other) => {
        const cab = state.trains[other]?.cab;
        return cab !== null && cab !== undefined && supplyOf(world, cab) === id;
      });
    return supply !== undefined && isOver(sum([train, ...running]), supplyLimit(supply));
  });
  return [...throttles, ...contacts, ...supplies].map((thing) => refusal(world, 'overload', [thing]));
}

/** Stopped at the end of the way, the train would lie over the gap behind its last block. */
export function tooLong(world: World, moving: MoveCase): readonly Refusal[] {
  const train = world.state.trains[moving.train];
  const last = moving.legs.at(-1) ?? moving.here;
  if (train === undefined || last === null || moving.overhang) return [];
  const way = [...spotsAhead(moving)].reverse();
  const under = blocksUnder(
    world.railroad,
    spotsUnder(world.railroad, { trail: [...way, ...train.trail], length: train.length }),
  );
  return under.some((block) => block !== last.block)
    ? [refusal(world, 'train-too-long', [moving.train, last.block])]
    : [];
}

/** The selectors at the roots of these legs, each once. */
export function selectorsAlong(world: World, moving: MoveCase): readonly SelectorId[] {
  return unique(
    moving.legs.map((leg) => rootSelector(world.railroad, leg.block)).filter((id) => id !== null),
  );
}
