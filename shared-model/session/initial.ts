/** The state before anything was said: everything open and off, or knobs and tags as the last session left them. */
import type { NodeId, SelectorId, ThrottleId, ToggleId } from '../ids.ts';
import type { Train, TurnoutPosition } from '../railroad/document.ts';
import type { Railroad } from '../railroad/railroad.ts';
import { isThrown } from '../railroad/travel.ts';
import type { PhaseCheckNow, SessionState, TagNow, TrainNow } from './state.ts';

/** What outlasts an evening. Positions that do not fit the railroad any more are passed over. */
export interface CarriedOver {
  readonly selectors?: Readonly<Record<SelectorId, ThrottleId | 'off'>>;
  readonly turnouts?: Readonly<Record<NodeId, TurnoutPosition>>;
  readonly toggles?: Readonly<Record<ToggleId, boolean>>;
  readonly tags?: readonly TagNow[];
  readonly checks?: readonly PhaseCheckNow[];
}

/** A train of the document (or a guest's) as it is before it is placed. */
export function unplacedTrain(train: Pick<Train, 'name' | 'length' | 'amps'>, tonight: boolean): TrainNow {
  return {
    name: train.name,
    length: train.length,
    amps: train.amps,
    placed: false,
    cab: null,
    blocks: [],
    trail: [],
    lost: false,
    stopped: true,
    derailed: false,
    stalled: false,
    motionUnknown: false,
    declared: null,
    together: [],
    picked: [],
    coupledInto: null,
    tonight,
    lastReportAt: null,
  };
}

function record<Id extends string, Value>(ids: readonly Id[], make: (id: Id) => Value): Record<Id, Value> {
  return Object.fromEntries(ids.map((id) => [id, make(id)])) as Record<Id, Value>;
}

/**
 * @param railroad the railroad of the evening
 * @param carried positions, tags and phase checks of the last session; every position stays presumed until thrown or reported
 */
export function initialState(railroad: Railroad, carried: CarriedOver = {}): SessionState {
  const { document } = railroad;
  const ids = <Id extends string>(list: readonly { id: Id }[]): readonly Id[] => list.map(({ id }) => id);
  const stillThere = (selector: SelectorId): ThrottleId | 'off' => {
    const position = carried.selectors?.[selector] ?? 'off';
    return railroad.selectors.get(selector)?.positions.includes(position) ? position : 'off';
  };
  return {
    phase: 'before',
    alone: false,
    entries: 0,
    at: 0,
    granted: 0,
    stop: null,
    cabs: record(ids(document.throttles), () => ({
      person: null,
      atZero: false,
      calledAt: null,
      stopCalled: false,
    })),
    selectors: record(ids(document.selectors), (id) => ({ position: stillThere(id), presumed: true })),
    turnouts: record(ids(document.nodes.filter(isThrown)), (id) => ({
      position: carried.turnouts?.[id] ?? 'normal',
      presumed: true,
    })),
    toggles: record(ids(document.toggles), (id) => ({ on: carried.toggles?.[id] ?? false, presumed: true })),
    blocks: record(ids(document.blocks), () => ({ state: 'open' as const, cab: null, train: null })),
    trains: Object.fromEntries(document.trains.map((train) => [train.id, unplacedTrain(train, false)])),
    cuts: {},
    authorities: {},
    alarms: [],
    asks: [],
    tags: carried.tags ?? [],
    checks: carried.checks ?? [],
    tripped: [],
    handOffs: [],
    clock: null,
  };
}
