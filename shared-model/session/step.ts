/** One input taken: judged, the picture drawn again, alarms ended and raised, asks looked at again. */
import type { Alarm } from '../refusal.ts';
import { bridgesNow } from './alarms/bridges.ts';
import { ends } from './alarms/endings.ts';
import { raiseAlarms } from './alarms/raise.ts';
import { isRequest, keepAsk, recheckAsks } from './asks.ts';
import type { SessionEvent } from './event.ts';
import { feedNow } from './facts/feed.ts';
import { changesBetween } from './fold.ts';
import type { SessionInput, TimedInput } from './input.ts';
import { drawPicture } from './picture.ts';
import { endFulfilled } from './reports/moving.ts';
import type { Done, Raised, Ruling } from './ruling.ts';
import { entriesOf, type World, withRecord, withState } from './world.ts';

/** A block becomes disputed; its owner stays the owner before. */
function disputeBlocks(world: World, before: World, blocks: Done['disputed']): World {
  let next = world;
  for (const block of blocks) {
    const owner = before.state.blocks[block];
    if (owner !== undefined) next = withRecord(next, 'blocks', block, { ...owner, state: 'disputed' });
  }
  return next;
}

/** A train whose power was cut: its engine may go either way when it comes again. */
function powerCut(before: World, after: World): World {
  let next = after;
  for (const [id, train] of entriesOf(after.state.trains)) {
    if (train.motionUnknown || train.blocks.length === 0) continue;
    const dead = train.blocks.every((block) => feedNow(after, block) === null);
    const was = before.state.trains[id]?.blocks.some((block) => feedNow(before, block) !== null) === true;
    const unit = after.railroad.trains.get(id)?.reverseUnit;
    if (dead && was && unit !== 'locked') next = withRecord(next, 'trains', id, { motionUnknown: true });
  }
  return next;
}

function newBridges(before: World, after: World): readonly Raised[] {
  const known = bridgesNow(before);
  return bridgesNow(after)
    .filter((bridge) => !known.some((other) => other.gap === bridge.gap && other.train === bridge.train))
    .map(({ gap, train }) => ({ code: 'bridging', about: [gap], train }));
}

function endAlarms(before: World, world: World, input: SessionInput): World {
  const alarms = world.state.alarms.filter((alarm) => !ends(world, alarm, input, before));
  return alarms.length === world.state.alarms.length ? world : withState(world, { alarms });
}

function reported(world: World, input: SessionInput, at: number): World {
  const train = 'train' in input && typeof input.train === 'string' ? input.train : undefined;
  return train !== undefined && world.state.trains[train as keyof typeof world.state.trains] !== undefined
    ? withRecord(world, 'trains', train, { lastReportAt: at })
    : world;
}

const REPORTING: readonly SessionInput['do'][] = [
  'train-entered',
  'train-cleared',
  'train-stopped',
  'train-at',
  'advance',
  'place-train',
];

/** Carries out what was ruled as done, and finds the alarms that are new. */
function carryOut(
  before: World,
  ruled: Done,
  input: SessionInput,
  at: number,
  entry: number,
): { world: World; fresh: readonly Alarm[] } {
  const told = REPORTING.includes(input.do) ? reported(ruled.world, input, at) : ruled.world;
  const disputed = disputeBlocks(endFulfilled(told), before, ruled.disputed);
  const drawn = powerCut(before, drawPicture(disputed));
  const raised = [...ruled.raised, ...newBridges(before, drawn)];
  const ended = endAlarms(before, drawn, input);
  return raiseAlarms(ended, raised, entry, at);
}

const counted = (world: World, entry: number, at: number): World => withState(world, { entries: entry, at });

/** The world and the event that one ruled input makes. */
export function settleRuling(
  before: World,
  timed: TimedInput,
  ruled: Ruling,
): { world: World; event: SessionEvent } {
  const { input, at } = timed;
  const entry = before.state.entries + 1;
  const head = { entry, at, input, ...(timed.impliedBy === undefined ? {} : { impliedBy: timed.impliedBy }) };
  if (ruled.kind === 'refused') {
    const kept = isRequest(input) ? keepAsk(before, input, ruled.reasons, at) : before;
    const world = counted(recheckAsks(kept), entry, at);
    const changes = changesBetween(before.state, world.state);
    return { world, event: { ...head, outcome: 'refused', reasons: ruled.reasons, changes } };
  }
  const { world: carried, fresh } = carryOut(before, ruled, input, at, entry);
  const world = counted(recheckAsks(carried), entry, at);
  const { authority, throws, guards, advice } = ruled;
  return {
    world,
    event: {
      ...head,
      outcome: fresh.length > 0 ? 'alarm' : 'done',
      reasons: fresh,
      ...(authority === undefined ? {} : { authority }),
      ...(throws === undefined ? {} : { throws }),
      ...(guards === undefined ? {} : { guards }),
      ...(advice === undefined ? {} : { advice }),
      changes: changesBetween(before.state, world.state),
    },
  };
}
