/** What a cab's strip says of its train: where it is on its authority, where to, what it waits for and how long. */
import type { ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { authorityOf } from '../../shared-model/session/facts/authorities.ts';
import { spokenBlock, spokenDestination } from '../../shared-model/session/say.ts';
import type { AskNow, TrainNow } from '../../shared-model/session/state.ts';
import type { World } from '../../shared-model/session/world.ts';
import { stretch } from './desk-source.ts';
import type { LineContext } from './entry-line/reading.ts';
import { behindWords, heldBy } from './plan-next.ts';
import { isSilent } from './status-figures.ts';
import { trainsInOrder } from './trains-in-order.ts';

export interface StripTrain {
  readonly train: TrainId;
  readonly name: string;
  /** "in 3, 4 ahead", "limits Yard, Lead", "in no block". */
  readonly where: string;
  /** "to Siding", "asks Quarry"; empty when it stands with nothing asked. */
  readonly doing: string;
  /** "waits for 5 (Cab 1)", "by the plan until No. 3 has left 5 Mill", "0:45 behind the plan"; empty when it waits for nothing. */
  readonly waits: string;
  /** How long it waits, or since its last report; empty where neither counts. */
  readonly time: string;
  /** Off the rails, stalled, motion unknown, not heard of. */
  readonly flags: readonly string[];
}

/** The trains that a cab has on the track, in the order of the document. */
export function trainsOfCab(world: World, cab: ThrottleId): readonly [TrainId, TrainNow][] {
  return trainsInOrder(world).filter(
    ([, train]) => train.placed && train.cab === cab && train.coupledInto === null,
  );
}

/** The thing that an ask waits for, and whose it is. */
function waitedFor({ railroad, state }: World, { reasons }: AskNow): string {
  const [reason] = reasons;
  if (reason === undefined) return '';
  const thing = spokenBlock(railroad, reason.about[0] ?? '');
  const owner = state.trains[reason.about[1] as TrainId];
  const cab =
    owner?.cab === null || owner === undefined ? '' : ` (${railroad.throttles.get(owner.cab)?.name ?? ''})`;
  return `waits for ${thing}${cab}`;
}

/** "in 3, 4 ahead": the blocks it is in, and how many of its authority's it has not entered yet. */
function whereWords(world: World, id: TrainId, train: TrainNow): string {
  const held = authorityOf(world.state, id)?.authority;
  const mark = (block: string): string => spokenBlock(world.railroad, block);
  if (held?.kind === 'limits') return `limits ${held.blocks.map(mark).join(', ')}`;
  const blocks = train.blocks.map(mark).join(', ');
  const progress = held === undefined ? '' : `, ${held.legs.length - 1 - held.at} ahead`;
  return `in ${blocks === '' ? 'no block' : blocks}${progress}`;
}

function flagsOf(train: TrainNow, seconds: number): readonly string[] {
  return [
    ...(train.derailed ? ['off the rails'] : []),
    ...(train.stalled ? ['stalled'] : []),
    ...(train.lost ? ['place unknown'] : []),
    ...(train.motionUnknown ? ['inch it'] : []),
    ...(isSilent(train, seconds) ? [`${train.name} where?`] : []),
  ];
}

/** How a train stands to the plan that is carried out: held by it while it has nothing in force, or behind it. */
function planWords({ state, plan }: World & Pick<LineContext, 'plan'>, id: TrainId, seconds: number): string {
  if (plan == null) return '';
  const until = authorityOf(state, id) === null ? heldBy({ plan }, id) : '';
  return [until === '' ? '' : `by the plan ${until}`, behindWords(plan, id, seconds)]
    .filter((word) => word !== '')
    .join(', ');
}

/**
 * @param seconds since the session was opened, now
 */
export function stripTrain(
  world: World & Pick<LineContext, 'plan'>,
  id: TrainId,
  train: TrainNow,
  seconds: number,
): StripTrain {
  const { railroad, state } = world;
  const held = authorityOf(state, id)?.authority;
  const ask = state.asks.find((one) => one.train === id);
  const goes = held?.kind === 'move' ? `to ${spokenDestination(railroad, held.to)}` : '';
  const readBack = held !== undefined && (held.state === 'granted' || held.legs.some((leg) => !leg.readBack));
  const asks = ask === undefined ? '' : `asks ${spokenDestination(railroad, ask.to)}`;
  const since = ask === undefined ? train.lastReportAt : (ask.calledAt ?? ask.since);
  return {
    train: id,
    name: train.name,
    where: whereWords(world, id, train),
    doing: [goes, readBack ? 'read back?' : '', asks].filter((word) => word !== '').join(', '),
    waits:
      ask === undefined ? planWords(world, id, seconds) : ask.free ? 'is free now' : waitedFor(world, ask),
    time: since === null || (ask === undefined && train.stopped) ? '' : stretch(seconds - since),
    flags: flagsOf(train, seconds),
  };
}
