/** When an alarm ends. Endings are tested before raisings, on the picture after the input. */
import type { BlockId, NodeId, SupplyId, TrainId } from '../../ids.ts';
import type { AlarmCode } from '../../refusal.ts';
import { authoritiesInForce, authorityOf, limitsBlocks } from '../facts/authorities.ts';
import { feedNow, switchOf } from '../facts/feed.ts';
import { standsRightFor } from '../facts/lined.ts';
import { isAgainst, locksOn } from '../facts/locks.ts';
import type { SessionInput } from '../input.ts';
import type { AlarmNow } from '../state.ts';
import type { World } from '../world.ts';
import { bridgesNow } from './bridges.ts';
import { unphasedAhead } from './unphased-ahead.ts';

type Ends = (world: World, alarm: AlarmNow, input: SessionInput, before: World) => boolean;

const REPORTS_OF_TRAINS: readonly SessionInput['do'][] = [
  'train-entered',
  'train-cleared',
  'train-stopped',
  'train-at',
  'stalled',
  'derailed',
  'rerailed',
  'set-out',
  'pick-up',
  'couple',
  'make-up',
  'advance',
];

const isTrainAt = (input: SessionInput, train: string | undefined): boolean =>
  input.do === 'train-at' && input.train === train;
/** The block was disputed before this input and is not now: it was settled, by itself or first in an override. */
const wasSettled = (before: World, world: World, block: string | undefined): boolean =>
  before.state.blocks[block as BlockId]?.state === 'disputed' &&
  world.state.blocks[block as BlockId]?.state !== 'disputed';

/** Whether this input threw or reported a block's own selector or toggle. */
function touchesOwnKnob({ railroad }: World, block: BlockId, input: SessionInput): boolean {
  const told = input.do === 'override' ? input.order : input;
  const own = switchOf(railroad, block);
  if (told.do === 'turn-selector' || told.do === 'selector-stands-at') return own === told.selector;
  if (told.do === 'set-toggle' || told.do === 'toggle-stands-at') return own === told.toggle;
  if (told.do !== 'apply-setting') return false;
  const setting = railroad.document.settings.find(({ id }) => id === told.setting);
  return own in { ...setting?.selectors, ...setting?.toggles };
}

/** An authority in force and read back covers a block: it is among the blocks granted. */
function isCovered(world: World, train: TrainId, block: BlockId): boolean {
  const authority = authorityOf(world.state, train)?.authority;
  if (authority === undefined || authority.state === 'granted') return false;
  if (authority.kind === 'limits') return limitsBlocks(world.state, authority).includes(block);
  return authority.legs.some((leg, index) => index > 0 && leg.block === block && leg.readBack);
}

const inBlock = (world: World, train: string, block: BlockId): boolean =>
  world.state.trains[train as TrainId]?.blocks.includes(block) === true ||
  authoritiesInForce(world.state).some(
    ({ authority }) => authority.train === train && authority.taken.includes(block),
  );

const ENDS: Record<AlarmCode, Ends> = {
  'entered-unauthorised': (world, { about: [train, block] }, input, before) =>
    isTrainAt(input, train) ||
    wasSettled(before, world, block) ||
    isCovered(world, train as TrainId, block as BlockId),
  'not-adjacent': (world, { about: [train, block] }, input, before) =>
    isTrainAt(input, train) || wasSettled(before, world, block),
  'still-under': (_world, { about: [train] }, input) =>
    REPORTS_OF_TRAINS.includes(input.do) && 'train' in input && input.train === train,
  'entered-unlined': (world, { about: [train, block] }, input) => {
    const id = block as BlockId;
    if (world.state.blocks[id]?.train !== train && !inBlock(world, train ?? '', id)) return true;
    if (world.state.blocks[id]?.state !== 'disputed' && world.state.blocks[id]?.train !== train) return true;
    return (
      standsRightFor(world, id, train as TrainId) ||
      (feedNow(world, id) === null && touchesOwnKnob(world, id, input))
    );
  },
  'wrong-throttle': (world, { about: [block], train }) => {
    const now = world.state.blocks[block as BlockId];
    const feed = feedNow(world, block as BlockId);
    return now === undefined || now.train !== train || feed === null || feed === now.cab;
  },
  'turnout-moved': (world, { about: [turnout] }) => {
    const position = world.state.turnouts[turnout as NodeId]?.position;
    return !locksOn(world, turnout as NodeId).some((lock) => isAgainst(lock, position));
  },
  'second-train': (world, { about: [thing, train] }) => {
    const blocks = world.state.trains[train as TrainId]?.blocks ?? [];
    return blocks
      .filter((block) => switchOf(world.railroad, block) === thing)
      .every((block) => feedNow(world, block) === null);
  },
  /** It is about the gap alone: it stands while any train bridges it, also one that came later than the first. */
  bridging: (world, { about: [gap] }) => !bridgesNow(world).some((bridge) => bridge.gap === gap),
  'unphased-ahead': (world, { about: [gap, a, b] }) =>
    !unphasedAhead(world, true).some((ahead) => ahead[0] === gap && ahead[1] === a && ahead[2] === b),
  breaker: (world, { about: [supply] }) => !world.state.tripped.includes(supply as SupplyId),
  'off-the-rails': (world, { about: [id] }) => {
    const train = world.state.trains[id as TrainId];
    return (
      train === undefined ||
      (!train.derailed && train.blocks.every((block) => world.state.blocks[block]?.state !== 'disputed'))
    );
  },
};

/** Whether a standing alarm ends with this input. */
export function ends(world: World, alarm: AlarmNow, input: SessionInput, before: World): boolean {
  return ENDS[alarm.code](world, alarm, input, before);
}
