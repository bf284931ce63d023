/** `capacity`: how many trains this railroad can keep moving, what stops one more, and what would help most, by trying each. */
import { type Draw, drawsFrom } from '../chance.ts';
import type { BlockId, TrainId } from '../ids.ts';
import type { RailroadDocument, Train } from '../railroad/document.ts';
import { indexRailroad, type Railroad } from '../railroad/railroad.ts';
import { ampsBound, cabsBound } from './capacity/amps.ts';
import { type Change, changesOf } from './capacity/changes.ts';
import { homesOf } from './capacity/homes.ts';
import { type KeepMoving, keepMoving, type Placement } from './capacity/keep-moving.ts';
import { roundOf } from './capacity/round.ts';
import { countWays } from './capacity/ways.ts';
import type { CapacityAnswer, CapacityBound, Help, Round } from './capacity-answer.ts';
import { type Memory, memoryOf } from './memory.ts';
import { type PlanOptions, USUAL_OPTIONS } from './plan/options.ts';
import { must, trackTable } from './track-table.ts';

export interface CapacityEffort {
  /** The seed of the draws: the same seed gives the same answer, unless it is stopped. */
  readonly seed: number;
  /** Asked often; true ends the work with what is known so far. */
  shouldStop(): boolean;
  /** Placements that are tried for one number of trains. */
  readonly tries?: number;
  readonly options?: PlanOptions;
  /** Whether what could be built is tried, too; it takes most of the time. */
  readonly tryChanges?: boolean;
  /** Most bytes that are kept at a time; the usual ones where nothing is said. */
  readonly bytes?: number;
}

/** The effort, with the memory that all of it has. */
interface Work extends CapacityEffort {
  readonly memory: Memory;
}

const count = (trains: number): string => (trains === 1 ? '1 train' : `${trains} trains`);

const USUAL_TRIES = 400;
/** More throttles than this are not looked at: the effort grows with the trains. */
const MOST_TRAINS = 12;

/** As many trains as there are throttles: the railroad's own, and where these are too few, more like them. */
function wishedTrains({ trains, throttles }: RailroadDocument): readonly Train[] {
  if (trains.length === 0) return [];
  const count = Math.min(MOST_TRAINS, throttles.length);
  return Array.from({ length: count }, (_, index) => {
    const train = must(trains[index % trains.length]);
    const again = Math.floor(index / trains.length);
    return again === 0 ? train : { ...train, id: `${train.id} (${again + 1})` as TrainId };
  });
}

/** Whether it does not matter which train is where on which cab: all of one length, every cab feeding the same blocks. */
function areAlike(railroad: Railroad, trains: readonly Train[]): boolean {
  const { feeds } = trackTable(railroad);
  const fed = railroad.document.throttles.map(({ id }) =>
    feeds.map((feed) => (feed?.throttles.includes(id) === true ? 1 : 0)).join(''),
  );
  return new Set(fed).size <= 1 && new Set(trains.map(({ length }) => length)).size <= 1;
}

function trackSearch(railroad: Railroad, effort: Work, draw: Draw): KeepMoving {
  const table = trackTable(railroad);
  const trains = wishedTrains(railroad.document);
  const alike = areAlike(railroad, trains);
  const { memory, shouldStop } = effort;
  const throttles = railroad.document.throttles.map(({ id }) => id);
  const lists = trains.map((train, index) => {
    const cabs = alike ? throttles.slice(index, index + 1) : throttles;
    return homesOf(table, train, { cabs, memory, shouldStop });
  });
  return keepMoving(table, lists, {
    draw,
    memory,
    shouldStop,
    tries: effort.tries ?? USUAL_TRIES,
    alike,
  });
}

function trackBound(railroad: Railroad, { best, proven, blocks }: KeepMoving): CapacityBound {
  const trains = best.homes.length;
  const named = blocks.slice(0, 4).map((block) => must(trackTable(railroad).blocks[block]));
  const where =
    named.length === 0 ? 'there is no room for one more' : `one more locks in ${named.join(', ')}`;
  const doubt = proven ? '' : ', as far as was tried';
  return {
    limit: 'track',
    trains,
    proven,
    about: named,
    says:
      trains === Math.min(MOST_TRAINS, railroad.document.throttles.length)
        ? `The track keeps as many trains moving as there are throttles: ${trains}.`
        : `The track keeps ${count(trains)} moving; ${where}${doubt}.`,
  };
}

/** The hands: fewer and fewer trains of the placement, until what they need in a minute is what a person can do. */
function handsBound(
  railroad: Railroad,
  best: Placement,
  options: PlanOptions,
  memory: Memory,
): CapacityBound {
  const quick = { ...options, throwSeconds: 0, throwsPerMinute: 60_000 };
  let trains = best.homes.length;
  let need = 0;
  for (; trains > 0; trains -= 1) {
    const runs = best.runs.filter(({ mover }) => mover < trains);
    const homes = best.homes.slice(0, trains);
    const round = roundOf(trackTable(railroad), { homes, runs }, quick, memory);
    need = round?.throwsPerMinute ?? 0;
    if (need <= options.throwsPerMinute) break;
  }
  const all = trains === best.homes.length;
  return {
    limit: 'hands',
    trains,
    proven: false,
    about: [],
    says: `${count(trains)} at full speed ${trains === 1 ? 'wants' : 'want'} ${need.toFixed(1)} throws a minute${all ? '' : '; one more wants more'} (a person does ${options.throwsPerMinute}).`,
  };
}

function helpOf(
  change: Change,
  now: { readonly trains: number; readonly ways: number; readonly among: ReadonlySet<BlockId> },
  effort: Work,
): Help {
  const railroad = indexRailroad(change.document);
  const { best } = trackSearch(railroad, effort, drawsFrom(effort.seed));
  const trains = best.homes.length;
  const moreWays = countWays(trackTable(railroad), now.among) - now.ways;
  const more = trains - now.trains;
  return {
    kind: change.kind,
    block: change.block,
    trains,
    moreWays,
    says: `With ${change.says}, ${more > 0 ? `${count(trains)} could keep moving, ${more} more` : 'no more trains could keep moving'}; ${moreWays} more ways from block to block.`,
  };
}

/** Every change tried, those that bring something, the best first: more trains, then more ways; the file's order decides the rest. */
function helpsOf(railroad: Railroad, trains: number, effort: Work): readonly Help[] {
  const among = new Set(railroad.document.blocks.map(({ id }) => id));
  const now = { trains, ways: countWays(trackTable(railroad), among), among };
  const helps: Help[] = [];
  for (const change of changesOf(railroad)) {
    if (effort.shouldStop()) break;
    helps.push(helpOf(change, now, effort));
  }
  return helps
    .filter((help) => help.trains > trains || help.moreWays > 0)
    .sort((one, other) => other.trains - one.trains || other.moreWays - one.moreWays);
}

/**
 * The capacity of a railroad without errors in its audit.
 *
 * Trains turn back at ends of track alone; one train a throttle. By the track and the wiring it is the largest number of trains for
 * which a placement was found from which all set out and come back (`keep-moving.ts`).
 */
export function capacity(railroad: Railroad, effort: CapacityEffort): CapacityAnswer {
  const options = effort.options ?? USUAL_OPTIONS;
  const table = trackTable(railroad);
  const memory = memoryOf(effort.bytes);
  const work = { ...effort, memory };
  const found = trackSearch(railroad, work, drawsFrom(effort.seed));
  const { best } = found;
  const bounds = [
    trackBound(railroad, found),
    handsBound(railroad, best, options, memory),
    ampsBound(railroad, wishedTrains(railroad.document)),
    cabsBound(railroad),
  ].sort((one, other) => one.trains - other.trains);
  const round: Round | null = best.homes.length === 0 ? null : roundOf(table, best, options, memory);
  return {
    trains: must(bounds[0]).trains,
    bounds,
    round,
    helps: effort.tryChanges === false ? [] : helpsOf(railroad, best.homes.length, work),
    estimate: true,
  };
}
