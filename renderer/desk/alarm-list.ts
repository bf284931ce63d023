/** The standing alarms by rank, each with its head in few words and what settles it. */
import type { BlockId, NodeId, SupplyId, TrainId } from '../../shared-model/ids.ts';
import { feedOf } from '../../shared-model/railroad/feed.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { AlarmCode } from '../../shared-model/refusal.ts';
import { ALARM_RANKS, type AlarmRank, alarmRank } from '../../shared-model/session/alarms/rank.ts';
import type { SessionInput } from '../../shared-model/session/input.ts';
import { spokenBlock } from '../../shared-model/session/say.ts';
import type { AlarmNow } from '../../shared-model/session/state.ts';
import type { World } from '../../shared-model/session/world.ts';
import { send } from './entry-line/reading.ts';
import { type Option, optionOf, PHASE_CHECK } from './option.ts';

/** Above so many in ten minutes, the record is behind: those of the book rank are one line. */
const FLOOD = 10;
const FLOOD_SECONDS = 600;

export interface RankedAlarm {
  readonly alarm: AlarmNow;
  readonly rank: AlarmRank;
}

export interface AlarmList {
  /** The gravest first, unseen before seen, newest before older. */
  readonly shown: readonly RankedAlarm[];
  /** Alarms of the book rank that are folded into one line; 0 when they are not. */
  readonly behind: number;
}

/** @param seconds since the session was opened, now */
export function alarmList(world: World, seconds: number): AlarmList {
  const ranked = world.state.alarms
    .map((alarm): RankedAlarm => ({ alarm, rank: alarmRank(world, alarm) }))
    .toSorted(
      (one, other) =>
        ALARM_RANKS.indexOf(one.rank) - ALARM_RANKS.indexOf(other.rank) ||
        Number(one.alarm.seen) - Number(other.alarm.seen) ||
        other.alarm.at - one.alarm.at,
    );
  const flood = world.state.alarms.filter(({ at }) => at > seconds - FLOOD_SECONDS).length > FLOOD;
  const shown = flood ? ranked.filter(({ rank }) => rank !== 'book') : ranked;
  return { shown, behind: ranked.length - shown.length };
}

const HEADS: Readonly<Record<AlarmCode, string>> = {
  'entered-unauthorised': 'NOT GRANTED',
  'entered-unlined': 'NOT LINED',
  'not-adjacent': 'NOT NEXT',
  'still-under': 'STILL UNDER',
  'wrong-throttle': 'WRONG THROTTLE',
  'turnout-moved': 'TURNOUT MOVED',
  'second-train': 'SECOND TRAIN',
  bridging: 'BRIDGED',
  'unphased-ahead': 'UNPHASED AHEAD',
  breaker: 'BREAKER',
  'off-the-rails': 'OFF THE RAILS',
};

/** The blocks on both sides of a gap. */
const sidesOf = (railroad: Railroad, gap: NodeId): readonly BlockId[] =>
  (railroad.edgesAt.get(gap) ?? []).flatMap((edge) => railroad.blockOfEdge.get(edge) ?? []);

/** How a thing is called in a head: a train or a block by its number, a gap by its two blocks, anything else by its id. */
function short({ railroad, state }: World, id: string | undefined): string {
  if (id === undefined) return '';
  const train = state.trains[id as TrainId];
  if (train !== undefined) return /\d+/.exec(train.name)?.[0] ?? train.name;
  if (railroad.supplies.has(id as SupplyId)) return railroad.supplies.get(id as SupplyId)?.name ?? id;
  if (railroad.nodes.get(id as NodeId)?.kind === 'gap')
    return sidesOf(railroad, id as NodeId)
      .map((block) => spokenBlock(railroad, block))
      .join(' and ');
  return spokenBlock(railroad, id);
}

/** "NOT GRANTED 12 in 9": read from across the room. */
export function alarmHead(world: World, { code, about }: Pick<AlarmNow, 'code' | 'about'>): string {
  const [first, second] = about.map((id) => short(world, id));
  const inBlock = ['entered-unauthorised', 'entered-unlined', 'not-adjacent', 'still-under'].includes(code);
  return `${HEADS[code]} ${first ?? ''}${inBlock ? ` in ${second ?? ''}` : ''}`.trim();
}

/** The steps to take, in order, where an alarm has steps of its own (common practice, no source). */
export function alarmSteps({ code }: Pick<AlarmNow, 'code'>): string {
  return code === 'breaker'
    ? 'Its handles to zero. Look for what bridges the rails. Press it in once. If it will not hold, leave it off and look.'
    : '';
}

const option = (says: string, ...inputs: readonly SessionInput[]): Option => optionOf(send(says, ...inputs));

/** Settling a block: it is the train's, or nobody is in it. */
export function settleOptions({ railroad, state }: World, block: BlockId): readonly Option[] {
  if (state.blocks[block]?.state !== 'disputed') return [];
  const mark = spokenBlock(railroad, block);
  const inside = (Object.entries(state.trains) as [TrainId, (typeof state.trains)[TrainId]][]).filter(
    ([id, train]) => train.blocks.includes(block) || state.blocks[block]?.train === id,
  );
  return [
    ...inside.map(([train, { name }]) =>
      option(`${mark} is ${name}'s`, { do: 'settle', block, state: 'occupied', train }),
    ),
    option(`${mark} is empty`, { do: 'settle', block, state: 'open' }),
  ];
}

/** A bridged gap is parted by turning either side off, where it has a dial: that is never refused. */
function partingOptions({ railroad, state }: World, gap: NodeId): readonly Option[] {
  return sidesOf(railroad, gap).flatMap((block): readonly Option[] => {
    const selector = feedOf(railroad, block)?.selector ?? null;
    return selector === null || state.selectors[selector]?.position === 'off'
      ? []
      : [option(`${selector} to off`, { do: 'turn-selector', selector, position: 'off' })];
  });
}

/** What mends an alarm, beside the throws that NEXT shows; nothing once the evening has ended. */
export function alarmOptions(
  world: World,
  { code, about }: Pick<AlarmNow, 'code' | 'about'>,
): readonly Option[] {
  const [first = '', second = ''] = about;
  const { state } = world;
  if (state.phase === 'ended') return [];
  switch (code) {
    case 'entered-unauthorised':
    case 'not-adjacent':
      return settleOptions(world, second as BlockId);
    case 'still-under':
      return [
        option(`still in ${spokenBlock(world.railroad, second)}`, {
          do: 'train-entered',
          train: first as TrainId,
          block: second as BlockId,
        }),
      ];
    case 'breaker':
      return [option('breaker is reset', { do: 'breaker-reset', supply: first as SupplyId })];
    case 'off-the-rails': {
      const train = state.trains[first as TrainId];
      return train?.derailed === true
        ? [option('rerailed', { do: 'rerailed', train: first as TrainId })]
        : (train?.blocks ?? []).flatMap((block) => settleOptions(world, block)).slice(0, 3);
    }
    case 'turnout-moved': {
      const now = state.turnouts[first as NodeId];
      const back = now?.position === 'normal' ? 'reverse' : 'normal';
      return [
        option(`it is back at ${back}`, {
          do: 'turnout-stands-at',
          turnout: first as NodeId,
          position: back,
        }),
      ];
    }
    case 'unphased-ahead':
      return [{ says: 'measure the phase', does: { kind: 'go', address: PHASE_CHECK } }];
    case 'bridging':
      return partingOptions(world, first as NodeId);
    case 'entered-unlined':
    case 'wrong-throttle':
    case 'second-train':
      return [];
  }
}
