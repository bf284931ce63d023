/** Turning a dial passes over the positions between: a live one among them would feed the block for a moment. */
import type { BlockId, SelectorId, ThrottleId } from '../../ids.ts';
import { gapsAcross, placedTrains, trainsIn } from '../facts/standing.ts';
import type { World } from '../world.ts';

type Position = ThrottleId | 'off' | null;

export interface WayRound {
  /** Turning up the list (clockwise as the dial is written), or down. */
  readonly direction: 'up' | 'down';
  readonly over: readonly Position[];
}

/** The ways to turn a dial from one position to another with the positions strictly between: one with end stops, two without. */
export function waysRound(
  positions: readonly Position[],
  from: Position,
  to: Position,
  stops: boolean,
): readonly WayRound[] {
  const start = positions.indexOf(from);
  const end = positions.indexOf(to);
  if (start < 0 || end < 0 || start === end) return [];
  const up: Position[] = [];
  for (let at = (start + 1) % positions.length; at !== end; at = (at + 1) % positions.length)
    up.push(positions[at] ?? null);
  const down: Position[] = [];
  for (
    let at = (start - 1 + positions.length) % positions.length;
    at !== end;
    at = (at - 1 + positions.length) % positions.length
  )
    down.push(positions[at] ?? null);
  const ways: readonly WayRound[] = [
    { direction: 'up', over: up },
    { direction: 'down', over: down },
  ];
  return stops ? ways.filter(({ direction }) => (direction === 'up') === end > start) : ways;
}

/** The first live cab that a way passes: a throttle other than the one the dial stands at, whose cab has a person and was not said to be at zero. */
export function liveCabOn({ state }: World, way: WayRound, from: Position): ThrottleId | null {
  const live = way.over.find((position): position is ThrottleId => {
    if (position === null || position === 'off' || position === from) return false;
    const cab = state.cabs[position];
    return cab !== undefined && cab.person !== null && !cab.atZero;
  });
  return live ?? null;
}

/** Whether passing over a live position matters: a train stands across a gap of the block, or the contacts overlap and a train is in it. */
function mattersHere(world: World, selector: SelectorId, blocks: readonly BlockId[]): boolean {
  const across = placedTrains(world).some(([, train]) =>
    gapsAcross(world.railroad, train).some(
      ({ ahead, behind }) => blocks.includes(ahead) || blocks.includes(behind),
    ),
  );
  const overlapping = world.railroad.selectors.get(selector)?.contacts === 'make-before-break';
  return across || (overlapping && blocks.some((block) => trainsIn(world, block).length > 0));
}

/** The cab whose live position every way round would pass over (the first passed going up the list); null where it does not matter or one way is free. */
export function sweptCab(
  world: World,
  id: SelectorId,
  to: ThrottleId,
  blocks: readonly BlockId[],
): ThrottleId | null {
  const selector = world.railroad.selectors.get(id);
  const from = world.state.selectors[id]?.position ?? 'off';
  if (selector === undefined || !mattersHere(world, id, blocks)) return null;
  const cabs = waysRound(selector.positions, from, to, selector.stops).map((way) =>
    liveCabOn(world, way, from),
  );
  return cabs.length > 0 && cabs.every((cab) => cab !== null) ? (cabs[0] ?? null) : null;
}
