/** The situation that an evening stands in now: what a rehearsal begins with when it is forked from the live state. */
import type { BlockId, NodeId, SelectorId, ThrottleId, ToggleId, TrainId } from '../../ids.ts';
import type { RailroadDocument, Setting, TurnoutPosition } from '../../railroad/document.ts';
import { feedOf } from '../../railroad/feed.ts';
import { indexRailroad, type Railroad } from '../../railroad/railroad.ts';
import { isStop } from '../../railroad/travel.ts';
import { cutsIn } from '../../session/facts/standing.ts';
import type { SessionState, TrainNow } from '../../session/state.ts';
import { entriesOf } from '../../session/world.ts';
import { type SituationJson, situationSchema } from '../situation.ts';

export interface ForkedSituation {
  /** With the trains as long as they are tonight, guests among them, and cuts of cars as trains that stand. */
  readonly railroad: Railroad;
  readonly json: SituationJson;
  /** Trains that could not be taken over, and why, each in a sentence. */
  readonly left: readonly string[];
}

/** The document with the trains of tonight. */
function documentTonight({ document }: Railroad, state: SessionState): RailroadDocument {
  const known = new Set<string>(document.trains.map(({ id }) => id));
  const trains = document.trains.map((train) => {
    const now = state.trains[train.id];
    return now === undefined ? train : { ...train, length: now.length, amps: now.amps };
  });
  const guests = entriesOf<TrainId, TrainNow>(state.trains)
    .filter(([id]) => !known.has(id))
    .map(([id, { name, length, amps }]) => ({ id, name, length, amps }));
  const cuts = Object.entries(state.cuts).map(([id, { length }]) => ({
    id: id as TrainId,
    name: `cars ${id}`,
    length,
    amps: 0,
  }));
  return { ...document, trains: [...trains, ...guests, ...cuts] };
}

/** What keeps a train from being taken over as it stands; null when nothing does. */
function whyNot(railroad: Railroad, state: SessionState, train: TrainNow): string | null {
  const head = train.trail[0];
  if (head === undefined || train.lost) return `where ${train.name} is, is not known: report it first`;
  if (!isStop(railroad, head.toward)) return `${train.name} does not stand at a gap or an end of track`;
  if (train.derailed) return `${train.name} is off the rails`;
  if (train.cab === null) return `${train.name} has no cab`;
  const cars = train.blocks.filter((block) => cutsIn({ railroad, state }, block).length > 0);
  return cars.length > 0 ? `cars stand in ${cars.join(', ')} with ${train.name}` : null;
}

/** Roots whose knob stands otherwise than the train's cab under a train: that train can only be taken over as parked. */
function isDead(railroad: Railroad, state: SessionState, block: BlockId): boolean {
  const feed = feedOf(railroad, block);
  if (feed === null) return true;
  if (feed.toggles.some((toggle) => state.toggles[toggle]?.on !== true)) return true;
  return feed.selector !== null && state.selectors[feed.selector]?.position === 'off';
}

const record = <Id extends string, Now, Value>(
  records: Readonly<Record<Id, Now>>,
  value: (now: Now) => Value,
) =>
  Object.fromEntries(entriesOf<Id, Now>(records).map(([id, now]) => [id, value(now)])) as Record<Id, Value>;

/**
 * Takes an evening as the beginning of a rehearsal. Declared trains keep their destination where it is a block; a train that stands
 * dead is parked, until somebody gives it a destination.
 */
export function situationOfState(live: Railroad, state: SessionState): ForkedSituation {
  const railroad = indexRailroad(documentTonight(live, state));
  const left: string[] = [];
  const trains: SituationJson['trains'][number][] = [];
  for (const [id, train] of entriesOf<TrainId, TrainNow>(state.trains)) {
    if (!train.placed) continue;
    const [head] = train.trail;
    const why = whyNot(railroad, state, train);
    if (why !== null || head === undefined || train.cab === null) {
      left.push(`${why ?? train.name}.`);
      continue;
    }
    const dead = train.blocks.some((block) => isDead(railroad, state, block));
    const to = train.declared;
    trains.push({
      train: id,
      edge: head.edge,
      toward: head.toward,
      cab: train.cab,
      ...(to !== null && !dead && railroad.blocks.has(to as BlockId) ? { to: to as BlockId } : {}),
    });
  }
  const [cab] = railroad.document.throttles;
  for (const [id, cut] of Object.entries(state.cuts)) {
    const [head] = cut.trail;
    if (head === undefined || cab === undefined || !isStop(railroad, head.toward))
      left.push(
        `The cars ${id} do not reach a gap or an end of track; keep clear of ${cut.blocks.join(', ')}.`,
      );
    else if (
      !cut.blocks.some((block) => Object.values(state.trains).some((train) => train.blocks.includes(block)))
    )
      trains.push({ train: id as TrainId, edge: head.edge, toward: head.toward, cab: cab.id });
  }
  const json = {
    trains,
    turnouts: record<NodeId, { position: TurnoutPosition }, TurnoutPosition>(
      state.turnouts,
      (now) => now.position,
    ),
    selectors: record<SelectorId, { position: ThrottleId | 'off' }, ThrottleId | 'off'>(
      state.selectors,
      (now) => now.position,
    ),
    toggles: record<ToggleId, { on: boolean }, boolean>(state.toggles, (now) => now.on),
  };
  return { railroad, json: situationSchema.parse(json), left };
}

/** A saved setting of all knobs, with nothing on the track. */
export function situationOfSetting(setting: Setting): SituationJson {
  const { turnouts, toggles } = setting;
  const selectors = Object.fromEntries(
    Object.entries(setting.selectors).map(([id, position]) => [id, position ?? 'off']),
  );
  return situationSchema.parse({ trains: [], turnouts, selectors, toggles });
}
