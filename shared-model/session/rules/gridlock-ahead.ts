/** Whether a move locks the railroad later: asked of the planning room, on the declared destinations alone. */
import type { TrainId } from '../../ids.ts';
import type { Refusal } from '../../refusal.ts';
import { authorityOf } from '../facts/authorities.ts';
import { blocksUnder, placedTrains, spotsUnder } from '../facts/standing.ts';
import type { Trail, TrainNow } from '../state.ts';
import type { LookAheadSituation, LookAheadTrain, World } from '../world.ts';
import { type MoveCase, spotsAhead } from './move-case.ts';
import { refusal } from './sentences.ts';

/** Where a train will stand when all that is granted to it is done. */
function trailAtEnd(world: World, id: TrainId, train: TrainNow): Trail {
  const held = authorityOf(world.state, id)?.authority;
  const ahead = held?.legs.slice(held.at + 1).flatMap((leg) => leg.spots) ?? [];
  return ahead.length === 0 ? train.trail : [...[...ahead].reverse(), ...train.trail];
}

function seen(world: World, id: TrainId, train: TrainNow, trail: Trail): LookAheadTrain {
  const under = spotsUnder(world.railroad, { trail, length: train.length, lost: train.lost });
  const known = under.reduce((sum, { edge }) => sum + (world.railroad.edges.get(edge)?.length ?? 0), 0);
  return {
    train: id,
    lengthMm: train.length,
    trail: under,
    head: train.lost ? null : (trail[0] ?? null),
    blocks: under.length > 0 ? blocksUnder(world.railroad, under) : train.blocks,
    beyond: trail === train.trail || known < train.length ? train.picked : [],
    to: train.declared,
  };
}

/** The state to look ahead from: every train at the end of its authority, this one where its move would stop. */
function situation(world: World, moving: MoveCase | null): LookAheadSituation {
  const trains = placedTrains(world).map(([id, train]) => {
    const trail =
      moving?.train === id
        ? [...[...spotsAhead(moving)].reverse(), ...train.trail]
        : trailAtEnd(world, id, train);
    return seen(world, id, train, trail);
  });
  return { trains, cuts: Object.values(world.state.cuts).flatMap((cut) => cut.blocks) };
}

/** The refusal, when the state after the move is gridlocked and the state before it was not; undecided is no refusal. */
export function gridlockAhead(world: World, moving: MoveCase): readonly Refusal[] {
  const { lookAhead, railroad } = world;
  if (lookAhead === undefined) return [];
  const after = situation(world, moving);
  if (after.trains.every((train) => train.to === null)) return [];
  const answer = lookAhead(railroad, after);
  if (answer.verdict !== 'gridlock') return [];
  if (lookAhead(railroad, situation(world, null)).verdict === 'gridlock') return [];
  return [refusal(world, 'gridlock-ahead', [...answer.trains, ...answer.blocks])];
}
