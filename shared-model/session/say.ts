/** The words that are spoken, in fixed forms. They name cabs, trains, blocks and places, and never a colour. */
import type { AuthorityId, BlockId, ThrottleId, TrainId } from '../ids.ts';
import { blockMarks } from '../railroad/block-marks.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { Refusal } from '../refusal.ts';
import type { SessionEvent } from './event.ts';
import { authoritiesInForce, authorityOf, legsAhead } from './facts/authorities.ts';
import { called, capital } from './rules/sentences.ts';
import { shortReason } from './short-reason.ts';
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

/** Where a grant starts: at a place, if its head stands on one of the place's tracks, else in a block. */
function startOfGrant({ railroad }: World, { legs, at }: AuthorityNow): string {
  const start = legs[at];
  const edge = start?.spots[0]?.edge;
  const place = railroad.document.places.find((one) => one.at.some((track) => track.edge === edge));
  return place?.name ?? spokenBlock(railroad, start?.block ?? '');
}

/** A grant: from where to where, by way of which blocks, where the cab changes, where to stop, and "read back". */
export function sayGrant(world: World, authority: AuthorityNow): string {
  const { railroad, state } = world;
  const { train } = authority;
  const mark = (block: string): string => spokenBlock(railroad, block);
  if (authority.kind === 'limits')
    return `${addressed(world, train)}: limits ${listed(authority.blocks.map(mark))}. Work as you like and report clear. Read back.`;
  const ahead = legsAhead(authority);
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
  const others = state.trains[train]?.together ?? [];
  const together =
    others.length === 0 ? '' : ` together with ${listed(others.map((other) => trainName(state, other)))}`;
  return `${addressed(world, train)}: from ${startOfGrant(world, authority)} to ${to}${by}${together}.${changes.join('')}${inch}${stop} Read back.`;
}

export function sayReadBack(world: World, train: TrainId, time: string): string {
  return `${addressed(world, train)}: right, ${time}.`;
}

/** Whether somebody has the train's cab: else there is nobody to say a word to. */
const isHeard = ({ state }: World, train: TrainId): boolean => {
  const cab = state.trains[train]?.cab ?? null;
  return cab !== null && state.cabs[cab]?.person != null;
};

/** A refusal: its first reason in few words, and whether the crew will be called when it has passed. */
export function sayRefused(world: World, event: SessionEvent): string {
  const { input } = event;
  const train = 'train' in input ? (input.train as TrainId) : null;
  const whom = train === null ? '' : `${addressed(world, train)}: `;
  const [first] = event.reasons as readonly Refusal[];
  const why = first === undefined ? '' : ` ${capital(shortReason(world, first, train))}.`;
  const waits = world.state.asks.some((ask) => ask.train === train) ? ' I will call you.' : '';
  return `${whom}not now.${why}${waits}`;
}

/** To a crew that calls and has to wait. */
export function sayHold(world: World, train: TrainId): string {
  const [first] = world.state.asks.find((ask) => ask.train === train)?.reasons ?? [];
  const why = first === undefined ? '' : ` ${capital(shortReason(world, first, train))}.`;
  return `${addressed(world, train)}: hold where you are.${why}`;
}

/** A cab calls: its train that waits is told to hold and why; else it may speak. */
export function sayCalled(world: World, cab: ThrottleId): string {
  const waits = world.state.asks.find((ask) => !ask.free && world.state.trains[ask.train]?.cab === cab);
  return waits === undefined ? `${cabName(world.railroad, cab)}: go ahead.` : sayHold(world, waits.train);
}

/** A relief: who has the cab now, and the authorities that the new person has to read back. */
export function sayRelief(world: World, cab: ThrottleId, person: string): string | null {
  const held = authoritiesInForce(world.state).filter(
    ({ authority }) => world.state.trains[authority.train]?.cab === cab,
  );
  if (held.length === 0) return null;
  const grants = held.map(({ authority }) => sayGrant(world, authority));
  return `${person}, you have ${cabName(world.railroad, cab)}. ${grants.join(' ')}`;
}

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
/** The spoken step of a hand-off: both handles alike before the gap is crossed. Where the train stands in the block it is the other cab's already. */
export function sayMatch(world: World, train: TrainId, block: BlockId, toCab: ThrottleId): string {
  const { railroad, state } = world;
  const to = cabName(railroad, toCab);
  const alike = 'both handles at the same setting';
  return state.trains[train]?.cab === toCab
    ? `${to}: ${trainName(state, train)} is yours, ${alike}.`
    : `${addressed(world, train)} and ${to}: from ${spokenBlock(railroad, block)} on ${to}, ${alike}.`;
}

/** Railroad time as it is read off a clock, and how it runs. */
function sayClock({ clock }: SessionState): string {
  if (clock === null) return 'Everybody: no railroad time.';
  const minutes = Math.floor(clock.minutes);
  const time = `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
  return `Everybody: railroad time ${time}, ${clock.ratio} to 1.`;
}

const everybody = (words: string): string => `Everybody: ${words}.`;

/** What is spoken after something that happened at a supply. */
function saySupply(world: World, supply: string, tripped: boolean): string {
  const name = called(world, supply);
  return tripped
    ? `Everybody on ${name}: handles to zero. The breaker tripped.`
    : `Everybody on ${name}: live again. Inch your train and say which way.`;
}

/** What is spoken of an authority after an entry about it. */
function sayOfAuthority(
  world: World,
  id: AuthorityId | undefined,
  say: (authority: AuthorityNow) => string,
): string | null {
  const authority = id === undefined ? undefined : world.state.authorities[id];
  return authority === undefined ? null : say(authority);
}

/**
 * What is spoken after an entry.
 *
 * @param world after the entry
 * @param time the clock time of the entry, as it is spoken
 * @returns the exact words; null for what is not spoken
 */
export function sayEntry(world: World, event: SessionEvent, time: string): string | null {
  const { input, outcome } = event;
  if (outcome === 'refused')
    return (input.do === 'request-move' || input.do === 'grant-limits') && isHeard(world, input.train)
      ? sayRefused(world, event)
      : null;
  switch (input.do) {
    case 'request-move':
    case 'grant-limits':
      return sayOfAuthority(world, event.authority, (authority) => sayGrant(world, authority));
    case 'acknowledge':
      return sayOfAuthority(world, input.authority, ({ train }) => sayReadBack(world, train, time));
    case 'annul':
      return sayOfAuthority(world, input.authority, ({ train }) => sayAnnul(world, train));
    case 'hand-off':
      return sayMatch(world, input.train, input.block, input.toCab);
    case 'release-limits':
      return `${addressed(world, input.train)}: limits released, ${time}.`;
    case 'change-cab':
      return `${addressed(world, input.train)}: handle at zero while the knobs are turned.`;
    case 'assign-cab':
      return input.person === null ? null : sayRelief(world, input.cab, input.person);
    case 'call':
      return sayCalled(world, input.cab);
    case 'stop-all':
      return sayStopAll(world.railroad);
    case 'resume':
      return everybody(`running again, ${time}. Hold until you are called`);
    case 'stop-called':
      return sayStop(world.railroad, input.cab);
    case 'breaker-tripped':
    case 'breaker-reset':
      return saySupply(world, input.supply, input.do === 'breaker-tripped');
    case 'tag':
      return everybody(`${called(world, input.thing)} is out of service, ${input.why}`);
    case 'untag':
      return everybody(`${called(world, input.thing)} is back in service`);
    case 'set-clock':
      return sayClock(world.state);
    default:
      return null;
  }
}

/** The authority that a train has now, in the words of its grant; for "say it again". */
export function sayAgain(world: World, train: TrainId): string | null {
  const held = authorityOf(world.state, train);
  return held === null ? null : sayGrant(world, held.authority);
}
