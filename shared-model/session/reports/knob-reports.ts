/** Reports of knobs, turnouts, toggles and handles: where they stand, whatever the rules would have said. */
import type { BlockId, NodeId, SelectorId, ThrottleId, ToggleId } from '../../ids.ts';
import type { TurnoutPosition } from '../../railroad/document.ts';
import { blocksOfSelector, feedNow, liveSectionsBehind, sectionsOfToggle, switchOf } from '../facts/feed.ts';
import { blockOfNode, isAgainst, locksOn } from '../facts/locks.ts';
import { placedTrains } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { type Done, done, type Raised } from '../ruling.ts';
import { unique, type World, withRecord } from '../world.ts';

export const setSelector = (world: World, id: SelectorId, position: ThrottleId | 'off'): World =>
  withRecord(world, 'selectors', id, { position, presumed: false });
export const setTurnout = (world: World, id: NodeId, position: TurnoutPosition): World =>
  withRecord(world, 'turnouts', id, { position, presumed: false });
export const setToggle = (world: World, id: ToggleId, on: boolean): World =>
  withRecord(world, 'toggles', id, { on, presumed: false });

/** These blocks and the sections behind them that are on. */
export function withLiveSections(world: World, blocks: readonly BlockId[]): readonly BlockId[] {
  return unique(blocks.flatMap((block) => [block, ...liveSectionsBehind(world, block)]));
}

/** Owned blocks that are now fed by a throttle that is not their owner's. */
export function wrongThrottles(world: World, blocks: readonly BlockId[]): readonly Raised[] {
  return blocks.flatMap((block): Raised[] => {
    const now = world.state.blocks[block];
    const feed = feedNow(world, block);
    if (now === undefined || now.cab === null || feed === null || feed === now.cab) return [];
    return [{ code: 'wrong-throttle', about: [block, feed], train: now.train }];
  });
}

/** Trains that this report makes run with a cab whose own train runs, and that are not together with it. */
function secondTrains(before: World, after: World, blocks: readonly BlockId[]): readonly Raised[] {
  const trains = placedTrains(after);
  return blocks.flatMap((block): Raised[] => {
    const feed = feedNow(after, block);
    if (feed === null || feed === feedNow(before, block)) return [];
    const running = trains.filter(([, train]) => train.cab === feed && !train.stopped);
    return trains
      .filter(
        ([id, train]) =>
          train.blocks.includes(block) &&
          running.some(
            ([other, runs]) => other !== id && !runs.together.includes(id) && !train.together.includes(other),
          ),
      )
      .map(([id]) => ({ code: 'second-train', about: [switchOf(after.railroad, block), id], train: id }));
  });
}

function feedReported(before: World, after: World, own: readonly BlockId[]): Done {
  const blocks = withLiveSections(after, own);
  return done(after, { raised: [...wrongThrottles(after, blocks), ...secondTrains(before, after, blocks)] });
}

export function selectorStandsAt(world: World, { selector, position }: InputOf<'selector-stands-at'>): Done {
  return feedReported(
    world,
    setSelector(world, selector, position),
    blocksOfSelector(world.railroad, selector),
  );
}

export function toggleStandsAt(world: World, { toggle, on }: InputOf<'toggle-stands-at'>): Done {
  return feedReported(world, setToggle(world, toggle, on), sectionsOfToggle(world.railroad, toggle));
}

export function turnoutStandsAt(world: World, { turnout, position }: InputOf<'turnout-stands-at'>): Done {
  const moved = world.state.turnouts[turnout]?.position !== position;
  const after = setTurnout(world, turnout, position);
  const locks = locksOn(world, turnout);
  if (!moved || !locks.some((lock) => isAgainst(lock, position))) return done(after);
  const block = blockOfNode(world.railroad, turnout);
  return done(after, {
    raised: [{ code: 'turnout-moved', about: [turnout], train: null }],
    disputed: block === null ? [] : [block],
  });
}

export function handleAtZero(world: World, { cab }: InputOf<'handle-at-zero'>): Done {
  return done(withRecord(world, 'cabs', cab, { atZero: true }));
}
