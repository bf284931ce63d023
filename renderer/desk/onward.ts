/** The way on of a train that comes to its limit: where it was sent from there last time, or the train before it was, else straight on. Nobody has asked for it yet. */
import type { EdgeId, ThrottleId, TrainId } from '../../shared-model/ids.ts';
import { isStop, onwardAsSet, type Spot } from '../../shared-model/railroad/travel.ts';
import type { SessionEvent } from '../../shared-model/session/event.ts';
import { authorityOf } from '../../shared-model/session/facts/authorities.ts';
import type { InputOf } from '../../shared-model/session/input.ts';
import { judge } from '../../shared-model/session/judge.ts';
import type { TrainNow } from '../../shared-model/session/state.ts';
import type { LineContext } from './entry-line/reading.ts';
import { trainsInOrder } from './trains-in-order.ts';

type Request = InputOf<'request-move'>;

export interface Onward {
  readonly train: TrainId;
  readonly cab: ThrottleId;
  readonly request: Request;
}

/** After so long at a stand without a word a train is taken for parked. */
const PARKED_SECONDS = 300;

/** What was granted, oldest first. */
function grantsIn(recent: readonly SessionEvent[]): readonly Request[] {
  return recent.flatMap(({ input, outcome, authority }) =>
    input.do === 'request-move' && outcome !== 'refused' && authority !== undefined ? [input] : [],
  );
}

/** What followed a destination the last time that a train was sent there. */
function followedBy(
  grants: readonly Request[],
  isThere: (to: string) => boolean,
  ofTrain: (id: TrainId) => boolean,
): Request | null {
  const trains = [...new Set(grants.map(({ train }) => train))].filter(ofTrain);
  const found = trains.flatMap((train) => {
    const own = grants.filter((grant) => grant.train === train);
    const at = own.findLastIndex((grant, index) => isThere(grant.to) && index < own.length - 1);
    const next = own[at + 1];
    return at < 0 || next === undefined ? [] : [next];
  });
  return found.toSorted((a, b) => grants.indexOf(b) - grants.indexOf(a))[0] ?? null;
}

/** How many blocks of its authority a train has not entered. */
const blocksAhead = ({ state }: LineContext, id: TrainId): number => {
  const held = authorityOf(state, id)?.authority;
  return held === undefined ? 0 : held.legs.length - 1 - held.at;
};

/** Whether a train is near the end of what it was granted: in its last block or the one before, or at a stand there for not too long, or its cab has called. */
function comesToItsLimit(context: LineContext, id: TrainId, train: TrainNow, cab: ThrottleId): boolean {
  const { state } = context;
  if (!train.placed || train.derailed || train.lost || train.coupledInto !== null) return false;
  const held = authorityOf(state, id)?.authority;
  if (held !== undefined)
    return (
      held.kind === 'move' &&
      held.state === 'running' &&
      blocksAhead(context, id) <= 1 &&
      held.legs.every(({ readBack }) => readBack)
    );
  const called = state.cabs[cab]?.calledAt != null;
  return train.stopped && (called || state.at - (train.lastReportAt ?? 0) < PARKED_SECONDS);
}

/** Where the train was sent from there last time, or else the train that was there before it. */
function asBefore({ railroad, recent }: LineContext, id: TrainId): Request | null {
  const grants = grantsIn(recent);
  const last = grants.findLast((grant) => grant.train === id);
  if (last === undefined) return null;
  const blockOf = (to: string): string => railroad.blockOfEdge.get(to as EdgeId) ?? to;
  const isThere = (to: string): boolean => blockOf(to) === blockOf(last.to);
  const before =
    followedBy(grants, isThere, (other) => other === id) ??
    followedBy(grants, isThere, (other) => other !== id);
  if (before === null) return null;
  const { together: _, joining: __, ...way } = before;
  return { ...way, train: id };
}

/** Through the next blocks, as the turnouts stand: their far ends, the nearest first. */
function stopsAhead({ railroad, state }: LineContext, id: TrainId, most: number): readonly Request[] {
  const from = authorityOf(state, id)?.authority.legs.at(-1)?.spots.at(-1) ?? state.trains[id]?.trail[0];
  if (from === undefined) return [];
  const stops: Request[] = [];
  let spot: Spot = from;
  for (let steps = railroad.edges.size; steps > 0 && stops.length < most; steps -= 1) {
    const next = onwardAsSet(railroad, spot, (node) => state.turnouts[node]?.position ?? 'normal');
    if (next === undefined) break;
    spot = { edge: next.edge, toward: next.toward };
    if (isStop(railroad, spot.toward)) stops.push({ do: 'request-move', train: id, to: spot.edge });
  }
  return stops;
}

/** Blocks that are granted straight on at once, at most: more would keep the others waiting. */
const FAR = 3;

/** Straight on as far as it is free, three blocks at most; null where not even the next one is. */
export function farOn(context: LineContext, { train }: Pick<Onward, 'train'>): Request | null {
  const { state } = context;
  return (
    stopsAhead(context, train, FAR).findLast((stop) => judge(context, stop, state.at).kind === 'done') ?? null
  );
}

/** The way on of one train, if it would be granted now. */
export function onwardOf(context: LineContext, id: TrainId): Onward | null {
  const { state } = context;
  const train = state.trains[id];
  const cab = train?.cab ?? null;
  if (state.phase !== 'running' || train === undefined || cab === null || state.cabs[cab]?.person == null)
    return null;
  // Where it goes on, the plan says.
  if (context.plan?.trains.has(id) === true) return null;
  if (state.asks.some((ask) => ask.train === id) || !comesToItsLimit(context, id, train, cab)) return null;
  const request = [asBefore(context, id), ...stopsAhead(context, id, 1)].find(
    (way) => way !== null && judge(context, way, state.at).kind === 'done',
  );
  return request == null ? null : { train: id, cab, request };
}

/** One name for a way on that was put off. */
export const onwardKey = ({ train, request }: Onward): string => `onward ${train} ${request.to}`;

/**
 * The ways on of all trains: of cabs that have called first, then of those under way before those that stand,
 * and of those in their last block, in the order in which they came there.
 *
 * @param later keys of those that were put off: they come last
 */
export function onwards(context: LineContext, later: readonly string[]): readonly Onward[] {
  const { state } = context;
  const found = trainsInOrder(context).flatMap(([train]) => onwardOf(context, train) ?? []);
  const rank = (onward: Onward): readonly number[] => [
    later.indexOf(onwardKey(onward)),
    state.cabs[onward.cab]?.calledAt ?? Number.POSITIVE_INFINITY,
    state.trains[onward.train]?.stopped === true ? 1 : 0,
    blocksAhead(context, onward.train),
    state.trains[onward.train]?.lastReportAt ?? 0,
  ];
  return found.toSorted((one, other) => {
    const [a, b] = [rank(one), rank(other)];
    const differs = a.findIndex((value, index) => value !== b[index]);
    return differs < 0 ? 0 : (a[differs] ?? 0) - (b[differs] ?? 0);
  });
}
