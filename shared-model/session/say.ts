/** The words that are spoken, in fixed forms. They name cabs, trains, blocks and places, and never a colour. */
import type { BlockId, ThrottleId, TrainId } from '../ids.ts';
import { blockMarks } from '../railroad/block-marks.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionEvent } from './event.ts';
import { authorityOf, legsAhead } from './facts/authorities.ts';
import type { AuthorityNow, SessionState } from './state.ts';
import { liveGapAhead } from './throws.ts';
import type { World } from './world.ts';

const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`;

/** How a block is spoken: its short mark. */
export function spokenBlock(railroad: Railroad, block: string): string {
  return blockMarks(railroad.document).get(block as BlockId) ?? block;
}

/** How a destination is spoken: a place by its name, a block by its mark. */
export function spokenDestination(railroad: Railroad, to: string): string {
  const place = railroad.document.places.find(({ id }) => id === to);
  if (place !== undefined) return place.name;
  const block = railroad.blocks.has(to as BlockId) ? to : railroad.blockOfEdge.get(to as never);
  return block === undefined ? to : spokenBlock(railroad, block);
}

const cabName = (railroad: Railroad, cab: ThrottleId | null): string =>
  cab === null ? 'Nobody' : (railroad.throttles.get(cab)?.name ?? cab);
const trainName = (state: SessionState, train: TrainId): string => state.trains[train]?.name ?? train;

/** "Cab 2, No. 12": how a crew is called. */
export function addressed({ railroad, state }: World, train: TrainId): string {
  return `${cabName(railroad, state.trains[train]?.cab ?? null)}, ${trainName(state, train)}`;
}

/** A grant: from where to where, by way of which blocks, where the cab changes, where to stop, and "read back". */
export function sayGrant(world: World, authority: AuthorityNow): string {
  const { railroad, state } = world;
  const { train } = authority;
  const mark = (block: string): string => spokenBlock(railroad, block);
  if (authority.kind === 'limits')
    return `${addressed(world, train)}: limits ${listed(authority.blocks.map(mark))}. Work as you like and report clear. Read back.`;
  const ahead = legsAhead(authority);
  const from = authority.legs[authority.at]?.block ?? '';
  const way = ahead.slice(0, -1).map((leg) => mark(leg.block));
  const changes = ahead.flatMap((leg, index) => {
    const before = ahead[index - 1]?.cab ?? authority.legs[authority.at]?.cab;
    return before === leg.cab
      ? []
      : [` From ${mark(leg.block)} on with ${cabName(railroad, leg.cab)}: both handles at the same setting.`];
  });
  const inch = state.trains[train]?.motionUnknown === true ? ' Inch it and say which way.' : '';
  const by = way.length === 0 ? '' : ` by way of ${listed(way)}`;
  const to = spokenDestination(railroad, authority.to);
  const stop = liveGapAhead(world, authority) ? ' Stop well short: live gap ahead.' : ' Stop at the gap.';
  return `${addressed(world, train)}: from ${mark(from)} to ${to}${by}.${changes.join('')}${inch}${stop} Read back.`;
}

/** A clock time as it is spoken after a right read-back. */
const clockWords = (time: string): string => `Right, ${time}.`;

export function sayReadBack(world: World, train: TrainId, time: string): string {
  return `${addressed(world, train)}: ${clockWords(time)}`;
}

/** A refusal: the reasons in few words. */
export function sayRefused(world: World, event: SessionEvent): string {
  const { input } = event;
  const whom =
    'train' in input && typeof input.train === 'string'
      ? `${addressed(world, input.train as TrainId)}: `
      : '';
  return `${whom}not now. ${event.reasons.map(({ says }) => says).join(' ')}`;
}

export const sayHold = (world: World, train: TrainId): string =>
  `${addressed(world, train)}: hold where you are.`;
export const sayAnnul = (world: World, train: TrainId): string =>
  `${addressed(world, train)}: your authority is annulled. Hold where you are. Read back.`;
/** The words that stop one cab. The console cannot cut power. */
export function sayStop(railroad: Railroad, cab: ThrottleId): string {
  const name = cabName(railroad, cab);
  return `${name}, stop. ${name}, stop.`;
}
/** The words that stop everybody. */
export function sayStopAll({ document }: Railroad): string {
  const power = document.masterSwitch === undefined ? '' : ` Master switch: ${document.masterSwitch}.`;
  return `All handles to zero.${power}`;
}
export const sayMatch = (world: World, train: TrainId, cab: ThrottleId): string =>
  `${addressed(world, train)} and ${cabName(world.railroad, cab)}: both handles at the same setting.`;

const sayTag = (thing: string, why: string): string => `Everybody: ${thing} is out of service, ${why}.`;

/**
 * What is spoken after an entry.
 *
 * @param world after the entry
 * @param time the clock time of the entry, as it is spoken
 * @returns the exact words; null for what is not spoken
 */
export function sayEntry(world: World, event: SessionEvent, time: string): string | null {
  const { input, outcome } = event;
  const { railroad, state } = world;
  if (outcome === 'refused')
    return input.do === 'request-move' || input.do === 'grant-limits' ? sayRefused(world, event) : null;
  switch (input.do) {
    case 'request-move':
    case 'grant-limits': {
      const authority = event.authority === undefined ? undefined : state.authorities[event.authority];
      return authority === undefined ? null : sayGrant(world, authority);
    }
    case 'acknowledge': {
      const authority = state.authorities[input.authority];
      return authority === undefined ? null : sayReadBack(world, authority.train, time);
    }
    case 'annul': {
      const authority = state.authorities[input.authority];
      return authority === undefined ? null : sayAnnul(world, authority.train);
    }
    case 'hand-off':
      return sayMatch(world, input.train, input.toCab);
    case 'release-limits':
      return `${addressed(world, input.train)}: limits released, ${time}.`;
    case 'change-cab':
      return `${addressed(world, input.train)}: handle at zero while the knobs are turned.`;
    case 'stop-all':
      return sayStopAll(railroad);
    case 'resume':
      return `Everybody: running again, ${time}. Hold until you are called.`;
    case 'stop-called':
      return sayStop(railroad, input.cab);
    case 'tag':
      return sayTag(input.thing, input.why);
    case 'untag':
      return `Everybody: ${input.thing} is back in service.`;
    case 'set-clock':
      return `Everybody: railroad time, ${input.ratio} to 1.`;
    default:
      return null;
  }
}

/** The authority that a train has now, in the words of its grant; for "say it again". */
export function sayAgain(world: World, train: TrainId): string | null {
  const held = authorityOf(world.state, train);
  return held === null ? null : sayGrant(world, held.authority);
}
