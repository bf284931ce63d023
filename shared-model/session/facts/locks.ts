/** Which turnouts and insulated crossings are locked, which way, and by whom. */
import type { BlockId, CutId, NodeId, TrainId } from '../../ids.ts';
import type { CrossingNode, TurnoutPosition } from '../../railroad/document.ts';
import type { Railroad } from '../../railroad/railroad.ts';
import type { Spot } from '../../railroad/travel.ts';
import type { AuthorityNow, Leg, SessionState, Trail } from '../state.ts';
import { entriesOf, type World } from '../world.ts';
import { authoritiesInForce, authorityOf, legsHeld } from './authorities.ts';
import { nodesUnder, placedTrains, spotsUnder } from './standing.ts';

/** A lock on a turnout: by an authority that needs it, or by a train that lies on it. */
export interface Lock {
  readonly train: TrainId | CutId;
  readonly wants: TurnoutPosition;
  readonly under: boolean;
  /** By an authority whose head is not yet in the turnout's block. */
  readonly ahead: boolean;
  /** The train trails it and moves it itself: it wants it so only while it lies on it. */
  readonly selfLined: boolean;
}

/** Whether a lock is against a position: a self-lining turnout may stand either way before it is trailed, and after. */
export function isAgainst(lock: Lock, position: TurnoutPosition | undefined): boolean {
  return lock.wants !== position && (lock.under || !lock.selfLined);
}

/** The block a turnout is in: that of its edges. */
export function blockOfNode(railroad: Railroad, node: NodeId): BlockId | null {
  const edge = railroad.edgesAt.get(node)?.[0];
  return (edge === undefined ? undefined : railroad.blockOfEdge.get(edge)) ?? null;
}

/** Whether the crew of a train with limits throws this turnout itself: all its edges are inside. */
export function isCrewThrown(world: World, train: TrainId, node: NodeId): boolean {
  const limits = authorityOf(world.state, train)?.authority;
  const named = limits?.kind === 'limits' ? limits.blocks : [];
  return (world.railroad.edgesAt.get(node) ?? []).every((edge) => {
    const block = world.railroad.blockOfEdge.get(edge);
    return block !== undefined && named.includes(block);
  });
}

/** The locks of an authority on a turnout. One that it passes and later trails is wanted as it comes next, or came last. */
function lockOf(state: SessionState, authority: AuthorityNow, turnout: NodeId): readonly Lock[] {
  const here = authority.legs[authority.at]?.block;
  const all = legsHeld(state, authority).flatMap((leg) => {
    const isNext = authority.legs.indexOf(leg) > authority.at;
    const ahead = isNext && leg.block !== here;
    return leg.turnouts
      .filter(({ id }) => id === turnout)
      .map(({ position, selfLined }) => ({
        isNext,
        lock: { train: authority.train, wants: position, under: false, ahead, selfLined },
      }));
  });
  const last = all.filter(({ isNext }) => !isNext).slice(-1);
  const next = all.filter(({ isNext }) => isNext).slice(0, 1);
  return [...last, ...next].map(({ lock }) => lock);
}

/** Every lock on a turnout now. */
export function locksOn(world: World, turnout: NodeId): readonly Lock[] {
  const { railroad, state } = world;
  const granted = authoritiesInForce(state).flatMap(({ authority }) => lockOf(state, authority, turnout));
  const lying = placedTrains(world).flatMap(([id, train]): Lock[] =>
    isCrewThrown(world, id, turnout)
      ? []
      : nodesUnder(railroad, spotsUnder(railroad, train)).flatMap(({ node, setting }) =>
          node === turnout && setting !== undefined
            ? [{ train: id, wants: setting, under: true, ahead: false, selfLined: false }]
            : [],
        ),
  );
  const parked = entriesOf(state.cuts).flatMap(([id, cut]): Lock[] =>
    nodesUnder(railroad, spotsUnder(railroad, cut)).flatMap(({ node, setting }) =>
      node === turnout && setting !== undefined
        ? [{ train: id, wants: setting, under: true, ahead: false, selfLined: false }]
        : [],
    ),
  );
  return [...granted, ...lying, ...parked];
}

const wayOf = (crossing: CrossingNode, spot: Spot): number =>
  crossing.ways.findIndex((way) => way.includes(spot.edge));

/** Which ways of a crossing a stretch of track (in travel order or head first) goes over; a slip is on both. */
export function waysOver(crossing: CrossingNode, spots: readonly Spot[]): readonly number[] {
  return spots.slice(1).flatMap((spot, index) => {
    const other = spots[index];
    const touch = (at: Spot | undefined): boolean =>
      at !== undefined && crossing.ways.flat().includes(at.edge);
    if (other === undefined || !touch(other) || !touch(spot)) return [];
    if (other.toward !== crossing.id && spot.toward !== crossing.id) return [];
    return [...new Set([wayOf(crossing, other), wayOf(crossing, spot)])];
  });
}

const legSpots = (legs: readonly Leg[]): readonly Spot[] => legs.flatMap((leg) => leg.spots);

/** The trains (and cuts) that have the other way of an insulated crossing, granted or under them. */
export function crossingTakers(
  world: World,
  crossing: CrossingNode,
  way: number,
  self: TrainId,
): readonly string[] {
  const conflicts = (ways: readonly number[]): boolean => ways.some((other) => other !== way);
  const granted = authoritiesInForce(world.state)
    .filter(({ authority }) => authority.train !== self)
    .filter(({ authority }) => conflicts(waysOver(crossing, legSpots(legsHeld(world.state, authority)))))
    .map(({ authority }) => authority.train);
  const workedIn = authoritiesInForce(world.state)
    .filter(({ authority }) => authority.train !== self && authority.kind === 'limits')
    .filter(({ authority }) =>
      crossing.ways.some((edges, index) => {
        const block = world.railroad.blockOfEdge.get(edges[0]);
        return index !== way && block !== undefined && authority.blocks.includes(block);
      }),
    )
    .map(({ authority }) => authority.train);
  const covers = (trail: Trail): boolean => conflicts(waysOver(crossing, trail));
  const lying = placedTrains(world)
    .filter(([id, train]) => id !== self && covers(spotsUnder(world.railroad, train)))
    .map(([id]) => id);
  const cuts = Object.entries(world.state.cuts)
    .filter(([, cut]) => covers(spotsUnder(world.railroad, cut)))
    .map(([id]) => id);
  return [...new Set<string>([...granted, ...workedIn, ...lying, ...cuts])];
}
