/** Where a request leads: the route that a move to a block, an edge or a place takes. */
import type { BlockId, EdgeId, TrainId } from '../../ids.ts';
import type { Route } from '../../railroad/route.ts';
import { type RouteOptions, routesToBlock, routesToEdge } from '../../railroad/routes.ts';
import type { Spot } from '../../railroad/travel.ts';
import { authorityOf, legsAhead, spotsToRun } from '../facts/authorities.ts';
import type { LegTurnout } from '../state.ts';
import type { World } from '../world.ts';
import { turnoutsAlong } from './move-case.ts';

/** One thing a request may mean: a block, an edge, or one track of a place. */
export interface Target {
  /** The block that is named when no track leads there. */
  readonly block: string;
  readonly routes: (from: Spot, options: RouteOptions) => readonly Route[];
}

/** What `to` names, in the order in which it is tried: a place has its tracks in the file's order. Empty when nothing has that id. */
export function targetsOf({ railroad }: World, to: string): readonly Target[] {
  const blockOf = (edge: EdgeId): string => railroad.blockOfEdge.get(edge) ?? edge;
  if (railroad.blocks.has(to as BlockId))
    return [{ block: to, routes: (from, options) => routesToBlock(railroad, from, to as BlockId, options) }];
  if (railroad.edges.has(to as EdgeId))
    return [
      {
        block: blockOf(to as EdgeId),
        routes: (from, options) => routesToEdge(railroad, from, to as EdgeId, options),
      },
    ];
  const place = railroad.document.places.find((other) => other.id === to);
  return (place?.at ?? []).map(({ edge, toward }) => ({
    block: blockOf(edge),
    routes: (from, options) => routesToEdge(railroad, from, edge, options, toward),
  }));
}

/** Where the next request of a train starts: the end of its authority, else its head; null while its place is unknown. */
export function startOf(world: World, train: TrainId): Spot | null {
  const legs = authorityOf(world.state, train)?.authority.legs ?? [];
  const end = [...legs]
    .reverse()
    .find((leg) => leg.spots.length > 0)
    ?.spots.at(-1);
  return end ?? world.state.trains[train]?.trail[0] ?? null;
}

/** The turnouts that a train's authority still has ahead of its head. */
function turnoutsToRun(world: World, train: TrainId): readonly LegTurnout[] {
  const held = authorityOf(world.state, train)?.authority;
  if (held === undefined) return [];
  const head = world.state.trains[train]?.trail[0];
  const here = head === undefined ? [] : turnoutsAlong(world.railroad, head, spotsToRun(world.state, held));
  return [...here, ...legsAhead(held).flatMap((leg) => leg.turnouts)];
}

/** The options of every route of a move: no turnout in both settings, counted with what the authority still has ahead. */
export function moveOptions(world: World, train: TrainId, via: readonly BlockId[] | undefined): RouteOptions {
  const settled = turnoutsToRun(world, train).filter(({ selfLined }) => !selfLined);
  return { oneSetting: true, settled, ...(via === undefined ? {} : { via }) };
}
