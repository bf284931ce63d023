/** The present state as the beginning of another plan: a train that is on its way by an order counts as having got there, and keeps its way until it has. */
import type { NodeId, SelectorId, ThrottleId, ToggleId, TrainId } from '../../ids.ts';
import type { TurnoutPosition } from '../../railroad/document.ts';
import { feedOf } from '../../railroad/feed.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Spot } from '../../railroad/travel.ts';
import { authoritiesInForce } from '../../session/facts/authorities.ts';
import type { AuthorityNow, SessionState, TrainNow } from '../../session/state.ts';
import { modelSpeed, type Seconds } from '../../units.ts';
import { type ForkedSituation, situationOfState } from '../rehearsal/fork-situation.ts';
import { type SituationJson, USUAL_MPH } from '../situation.ts';
import type { TrainsUnderWay, UnderWay } from './keep-order.ts';

export interface FromHere extends ForkedSituation {
  readonly underWay: TrainsUnderWay;
}

type WrittenTrain = SituationJson['trains'][number];

/** The way that an authority still has ahead of the head, in the order of running. */
function spotsAhead(train: TrainNow, { legs, at }: AuthorityNow): readonly Spot[] {
  const [head] = train.trail;
  const here = legs[at]?.spots ?? [];
  const place = here.findIndex(({ edge, toward }) => edge === head?.edge && toward === head.toward);
  return [...here.slice(place + 1), ...legs.slice(at + 1).flatMap(({ spots }) => spots)];
}

/** The state when a train has run its authority: its head at the end, every knob of the way as the way needs it. */
function arrived(railroad: Railroad, state: SessionState, authority: AuthorityNow): SessionState {
  const train = state.trains[authority.train];
  if (train === undefined) return state;
  const ahead = spotsAhead(train, authority);
  const trail = [...[...ahead].reverse(), ...train.trail];
  const blocks = [
    ...new Set(
      trail.map(({ edge }) => railroad.blockOfEdge.get(edge)).filter((block) => block !== undefined),
    ),
  ];
  const turnouts: Record<NodeId, { position: TurnoutPosition; presumed: boolean }> = { ...state.turnouts };
  const selectors: Record<SelectorId, { position: ThrottleId | 'off'; presumed: boolean }> = {
    ...state.selectors,
  };
  const toggles: Record<ToggleId, { on: boolean; presumed: boolean }> = { ...state.toggles };
  for (const leg of authority.legs.slice(authority.at)) {
    for (const { id, position } of leg.turnouts) turnouts[id] = { position, presumed: false };
    const feed = feedOf(railroad, leg.block);
    if (feed?.selector != null) selectors[feed.selector] = { position: leg.cab, presumed: false };
    for (const toggle of feed?.toggles ?? []) toggles[toggle] = { on: true, presumed: false };
  }
  const cab = authority.legs.at(-1)?.cab ?? train.cab;
  return {
    ...state,
    turnouts,
    selectors,
    toggles,
    trains: { ...state.trains, [authority.train]: { ...train, trail, blocks, cab } },
  };
}

/** How long the rest of an authority takes at a speed in scale miles an hour. */
function secondsAhead(railroad: Railroad, train: TrainNow, authority: AuthorityNow, mph: number): Seconds {
  const mm = spotsAhead(train, authority).reduce(
    (sum, { edge }) => sum + (railroad.edges.get(edge)?.length ?? 0),
    0,
  );
  return mm / modelSpeed(mph, railroad.document.scaleRatio);
}

/**
 * Takes an evening as it stands as the beginning of another plan.
 *
 * @param wishes where the trains were to end up in the plan before, with their speeds and earliest starts
 * @param since seconds since the beginning of that plan
 */
export function fromHere(
  live: Railroad,
  state: SessionState,
  wishes: readonly WrittenTrain[],
  since: Seconds,
): FromHere {
  const moving = authoritiesInForce(state).filter(
    ({ authority }) => authority.kind === 'move' && (state.trains[authority.train]?.trail.length ?? 0) > 0,
  );
  const later = moving.reduce((now, { authority }) => arrived(live, now, authority), state);
  const forked = situationOfState(live, later);
  const wishOf = new Map<TrainId, WrittenTrain>(wishes.map((wish) => [wish.train as TrainId, wish]));
  const trains = forked.json.trains.map((train): WrittenTrain => {
    const wish = wishOf.get(train.train as TrainId);
    const held = moving.find(({ authority }) => authority.train === train.train)?.authority;
    const now = state.trains[train.train as TrainId];
    const mph = wish?.mph ?? train.mph;
    const busy =
      held === undefined || now === undefined ? 0 : secondsAhead(live, now, held, mph ?? USUAL_MPH);
    const notBefore = Math.ceil(Math.max((wish?.notBefore ?? 0) - since, busy));
    const to = wish === undefined ? train.to : wish.to;
    return {
      train: train.train,
      edge: train.edge,
      toward: train.toward,
      cab: train.cab,
      ...(to === undefined ? {} : { to }),
      ...(mph === undefined ? {} : { mph }),
      ...(notBefore > 0 ? { notBefore } : {}),
    };
  });
  const underWay = new Map<TrainId, UnderWay>();
  for (const { authority } of moving) {
    const now = state.trains[authority.train]?.blocks ?? [];
    const ahead = authority.legs.slice(authority.at + 1).map(({ block }) => block);
    underWay.set(authority.train, { blocks: [...[...now].reverse(), ...ahead], entered: now.length });
  }
  return { ...forked, json: { ...forked.json, trains }, underWay };
}
