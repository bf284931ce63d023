/** Advance: one key that says what the dispatcher sees: the next block is lined, entered, and what lies behind the train is clear. */
import type { BlockId, NodeId, SelectorId, ToggleId } from '../../ids.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import { authorityOf } from '../facts/authorities.ts';
import { blocksUnder, spotsUnder } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { selectorStandsAt, toggleStandsAt, turnoutStandsAt } from '../reports/knob-reports.ts';
import { trainNow } from '../reports/moving.ts';
import { trainCleared, trainEntered, trainStopped } from '../reports/train-reports.ts';
import { afterwards, type Done, done, type Ruling } from '../ruling.ts';
import type { Leg, Throw, TrainNow } from '../state.ts';
import { legThrows } from '../throws.ts';
import type { World } from '../world.ts';
import { notNow, trainNotNow } from './train-orders.ts';

/** One implied report that a throw stands right: only where it is off or presumed, a turnout only where it is presumed. */
function implied(world: World, { kind, id, to }: Throw): Done {
  const { state } = world;
  if (kind === 'selector') {
    const selector = id as SelectorId;
    const now = state.selectors[selector];
    if (now?.position !== 'off' && now?.presumed !== true) return done(world);
    return selectorStandsAt(world, { do: 'selector-stands-at', selector, position: to as never });
  }
  if (kind === 'toggle')
    return toggleStandsAt(world, { do: 'toggle-stands-at', toggle: id as ToggleId, on: to === true });
  const turnout = id as NodeId;
  if (state.turnouts[turnout]?.presumed !== true) return done(world);
  return turnoutStandsAt(world, { do: 'turnout-stands-at', turnout, position: to as never });
}

const lengthOf = (railroad: Railroad, train: TrainNow): ((index: number) => number) => {
  const sums: number[] = [0];
  for (const spot of train.trail)
    sums.push((sums.at(-1) ?? 0) + (railroad.edges.get(spot.edge)?.length ?? 0));
  return (index) => sums[index] ?? 0;
};

/** Blocks behind whose gap toward the head lies farther back from the gap just crossed than the train's length and a margin. */
function clearAfterEntry(world: World, train: TrainNow): readonly BlockId[] {
  const { railroad } = world;
  const blockAt = (index: number): BlockId | undefined => {
    const spot = train.trail[index];
    return spot === undefined ? undefined : railroad.blockOfEdge.get(spot.edge);
  };
  const behindHead = lengthOf(railroad, train);
  const crossed = train.trail.findIndex((_, index) => blockAt(index) !== train.blocks[0]);
  if (crossed < 0) return [];
  const margin = Math.max(0.05 * train.length, 100);
  return train.blocks.slice(1).filter((block) => {
    const first = train.trail.findIndex((_, index) => index >= crossed && blockAt(index) === block);
    return first < 0 ? false : behindHead(first) - behindHead(crossed) > train.length + margin;
  });
}

/** Blocks behind that the train, stopped at its limit, does not cover. */
function clearAtLimit(world: World, train: TrainNow): readonly BlockId[] {
  const under = blocksUnder(world.railroad, spotsUnder(world.railroad, train));
  return train.blocks.slice(1).filter((block) => !under.includes(block));
}

function clears(
  first: Done,
  id: InputOf<'advance'>['train'],
  blocks: (world: World, train: TrainNow) => readonly BlockId[],
): Done {
  const list = [...blocks(first.world, trainNow(first.world, id))].reverse();
  return list.reduce(
    (told, block) =>
      afterwards(told, (world) => trainCleared(world, { do: 'train-cleared', train: id, block })),
    first,
  );
}

function intoNext(world: World, id: InputOf<'advance'>['train'], leg: Leg): Done {
  const lined = legThrows(world, leg).reduce(
    (told, thrown) => afterwards(told, (now) => implied(now, thrown)),
    done(world),
  );
  const entered = afterwards(lined, (now) =>
    trainEntered(now, { do: 'train-entered', train: id, block: leg.block }),
  );
  return clears(entered, id, clearAfterEntry);
}

export function advance(world: World, { train: id }: InputOf<'advance'>): Ruling {
  const held = authorityOf(world.state, id);
  if (held === null) return trainNotNow(world, id, 'has no authority');
  const { authority } = held;
  if (authority.kind === 'limits' || authority.state === 'granted') return notNow(world, held.id);
  const next = authority.legs[authority.at + 1];
  if (next === undefined)
    return clears(trainStopped(world, { do: 'train-stopped', train: id }), id, clearAtLimit);
  if (!next.readBack) return notNow(world, held.id);
  return intoNext(world, id, next);
}
