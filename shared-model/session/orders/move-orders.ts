/** Orders about moves: request, acknowledge, annul, withdraw, declare. */
import type { AuthorityId, BlockId, ThrottleId, TrainId } from '../../ids.ts';
import { routesToBlock } from '../../railroad/routes.ts';
import type { Refusal } from '../../refusal.ts';
import { authorityOf, type InForce } from '../facts/authorities.ts';
import type { InputOf } from '../input.ts';
import { authorityAfter } from '../machines.ts';
import { drawPicture } from '../picture.ts';
import { setAuthorityState, trainNow } from '../reports/moving.ts';
import { moveOptions, startOf, type Target, targetsOf } from '../rules/destination.ts';
import { type MoveCase, moveCase } from '../rules/move-case.ts';
import { allMoveReasons } from '../rules/move-reasons.ts';
import { refusal } from '../rules/sentences.ts';
import { done, type Ruling } from '../ruling.ts';
import type { AuthorityNow } from '../state.ts';
import { guardsBeyond, throwsNeeded } from '../throws.ts';
import { unique, type World, withRecord, withState } from '../world.ts';
import { notNow, trainNotNow } from './train-orders.ts';

/** What is not ready for a move: the train, its cab, or the limits that it works in; null when all is. */
export function notReady(world: World, id: TrainId): string | null {
  const train = trainNow(world, id);
  const held = authorityOf(world.state, id);
  const limits = held?.authority.kind === 'limits' ? held.id : null;
  const nowhere = limits === null && (train.lost || train.trail.length === 0);
  if (!train.placed || train.derailed || nowhere || train.cab === null) return id;
  if (world.state.cabs[train.cab]?.person == null) return train.cab;
  return limits;
}

export type Judged =
  | { readonly kind: 'refused'; readonly reasons: readonly Refusal[] }
  | { readonly kind: 'free'; readonly moving: MoveCase };

function noRoute(world: World, id: TrainId, target: Target): Refusal {
  const from = startOf(world, id);
  const length = trainNow(world, id).length;
  const inTwo = from !== null && target.routes(from, {}).length > 0;
  const backing = from !== null && target.routes(from, { reversals: 1, trainLengthMm: length }).length > 0;
  const more = inTwo
    ? 'A turnout would be needed both ways: ask for two moves.'
    : backing
      ? 'With a reversal there would be a way.'
      : 'A reversal would not help.';
  return refusal(world, 'no-route', [id, target.block], more);
}

function judgeTarget(world: World, request: InputOf<'request-move'>, target: Target): Judged {
  const from = startOf(world, request.train);
  const route =
    from === null ? undefined : target.routes(from, moveOptions(world, request.train, request.via))[0];
  if (route === undefined) return { kind: 'refused', reasons: [noRoute(world, request.train, target)] };
  const moving = moveCase(world, request.train, route, request);
  const reasons = allMoveReasons(world, moving);
  return reasons.length > 0 ? { kind: 'refused', reasons } : { kind: 'free', moving };
}

/** Judges a request without doing anything: the first track of a place that is free, or the reasons against the first. */
export function judgeMove(world: World, request: InputOf<'request-move'>): Judged {
  const unready = notReady(world, request.train);
  if (unready !== null) return { kind: 'refused', reasons: [refusal(world, 'not-now', [unready])] };
  const judged = targetsOf(world, request.to).map((target) => judgeTarget(world, request, target));
  const first = judged[0] ?? {
    kind: 'refused',
    reasons: [refusal(world, 'no-route', [request.train, request.to])],
  };
  return judged.find(({ kind }) => kind === 'free') ?? first;
}

/** The case of a request regardless of the reasons, for an override: the first target that has a route at all. */
export function caseOf(world: World, request: InputOf<'request-move'>): MoveCase | null {
  const from = startOf(world, request.train);
  if (from === null) return null;
  for (const target of targetsOf(world, request.to)) {
    const route = target.routes(from, moveOptions(world, request.train, request.via))[0];
    if (route !== undefined) return moveCase(world, request.train, route, request);
  }
  return null;
}

/** The blocks on the way to where no single move leads, since a turnout would be needed both ways: it is gone in two. None where there is no such way. */
export function wayInTwo(world: World, { train, to }: InputOf<'request-move'>): readonly BlockId[] {
  const from = startOf(world, train);
  if (from === null) return [];
  const route = targetsOf(world, to).flatMap((target) => target.routes(from, {}).slice(0, 1))[0];
  return route?.blocks.slice(1) ?? [];
}

/** "At zero" ends with the next grant that uses the cab; a call is answered by it. */
export function usesCabs(world: World, cabs: readonly ThrottleId[]): World {
  let next = world;
  for (const cab of unique(cabs))
    next = withRecord(next, 'cabs', cab, { atZero: false, calledAt: null, stopCalled: false });
  return next;
}

export const withoutAsk = (world: World, train: TrainId): World =>
  withState(world, { asks: world.state.asks.filter((ask) => ask.train !== train) });

/** A new authority, or a lengthened one under the same id; in a session opened alone it acknowledges itself. */
export function grant(world: World, moving: MoveCase, to: string): Ruling {
  const { state } = world;
  const held = authorityOf(state, moving.train);
  const readBack = state.alone;
  const asked = moving.legs.slice(moving.held).map((leg) => ({ ...leg, readBack }));
  const id = held?.id ?? (`a${state.granted + 1}` as AuthorityId);
  const authority: AuthorityNow =
    held === null ? begun(world, moving, asked, to) : lengthened(held, moving, asked, to);
  let next = withRecord(
    withState(world, held === null ? { granted: state.granted + 1 } : {}),
    'authorities',
    id,
    authority,
  );
  const together = unique([
    ...(held === null ? [] : trainNow(world, moving.train).together),
    ...moving.together,
  ]);
  next = withRecord(next, 'trains', moving.train, { together });
  next = withoutAsk(usesCabs(next, [moving.cab, ...asked.map((leg) => leg.cab)]), moving.train);
  // What is still needed, and what lies open beyond, is asked of the blocks as this grant leaves them.
  const drawn = drawPicture(next);
  return done(next, {
    authority: id,
    throws: throwsNeeded(drawn, authority),
    guards: guardsBeyond(drawn, authority),
  });
}

function begun(world: World, moving: MoveCase, asked: AuthorityNow['legs'], to: string): AuthorityNow {
  const train = trainNow(world, moving.train);
  const head = train.trail[0];
  const block = train.blocks[0];
  if (head === undefined || block === undefined) throw new Error(`${moving.train} is nowhere`);
  const start = {
    block,
    gap: null,
    spots: [head, ...(moving.here?.spots ?? [])],
    turnouts: moving.here?.turnouts ?? [],
    cab: moving.cab,
    readBack: true,
  };
  return {
    train: moving.train,
    kind: 'move',
    state: world.state.alone ? authorityAfter('granted', 'acknowledge') : 'granted',
    blocks: asked.map((leg) => leg.block),
    legs: [start, ...asked],
    at: 0,
    to,
    grantedAt: world.state.at,
    taken: [],
  };
}

function lengthened(
  { authority }: InForce,
  moving: MoveCase,
  asked: AuthorityNow['legs'],
  to: string,
): AuthorityNow {
  const kept = [...authority.legs.slice(0, authority.at + 1), ...moving.legs.slice(0, moving.held)];
  const last = kept.at(-1);
  const here = moving.here;
  const legs =
    here === null || last === undefined
      ? kept
      : [
          ...kept.slice(0, -1),
          { ...last, spots: [...last.spots, ...here.spots], turnouts: [...last.turnouts, ...here.turnouts] },
        ];
  return {
    ...authority,
    blocks: [...authority.blocks, ...asked.map((leg) => leg.block)],
    legs: [...legs, ...asked],
    to,
  };
}

export function requestMove(world: World, request: InputOf<'request-move'>): Ruling {
  const judged = judgeMove(world, request);
  return judged.kind === 'refused' ? { ...judged, world } : grant(world, judged.moving, request.to);
}

export function acknowledge(world: World, { authority: id }: InputOf<'acknowledge'>): Ruling {
  const authority = world.state.authorities[id];
  const waiting = authority?.state === 'granted' || authority?.legs.some((leg) => !leg.readBack) === true;
  const inForce =
    authority !== undefined && authority.state !== 'fulfilled' && authority.state !== 'annulled';
  if (!inForce || !waiting) return notNow(world, id);
  const read = withRecord(world, 'authorities', id, {
    legs: authority.legs.map((leg) => ({ ...leg, readBack: true })),
  });
  if (authority.state !== 'granted') return done(read);
  const counts = setAuthorityState(read, id, 'acknowledge');
  // The head went in before the read-back: from now on it runs on it.
  return done(authority.at > 0 ? setAuthorityState(counts, id, 'enter') : counts);
}

/** Gives back the blocks that the train has not entered; over a running train only after it was reported stopped. */
export function annul(world: World, { authority: id }: InputOf<'annul'>): Ruling {
  const authority = world.state.authorities[id];
  const inForce =
    authority !== undefined && authority.state !== 'fulfilled' && authority.state !== 'annulled';
  if (!inForce || authority.kind === 'limits') return notNow(world, id);
  const train = trainNow(world, authority.train);
  if (authority.state === 'running' && !train.stopped && !train.derailed)
    return trainNotNow(world, authority.train, 'is on its way: say first that it has stopped');
  return done(setAuthorityState(world, id, 'annul'));
}

export function withdraw(world: World, { train }: InputOf<'withdraw'>): Ruling {
  if (!world.state.asks.some((ask) => ask.train === train))
    return trainNotNow(world, train, 'asks for nothing');
  return done(withoutAsk(world, train));
}

export function declare(world: World, { train, to }: InputOf<'declare'>): Ruling {
  return done(withRecord(world, 'trains', train, { declared: to }));
}

/** Whether some way to a block leads round the blocks that stand against the shortest; for the ways out of a refusal. */
export function otherWay(world: World, train: TrainId, to: string): readonly string[] | null {
  const from = startOf(world, train);
  if (from === null || !world.railroad.blocks.has(to as never)) return null;
  const routes = routesToBlock(world.railroad, from, to as never, {
    ...moveOptions(world, train, undefined),
    alternatives: 4,
  });
  const free = routes
    .slice(1)
    .find((route) => allMoveReasons(world, moveCase(world, train, route, {})).length === 0);
  return free === undefined ? null : free.blocks.slice(1);
}
