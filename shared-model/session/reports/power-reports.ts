/** Reports of the supplies: phase checks, replugging, breakers. */
import type { SupplyId } from '../../ids.ts';
import { unphasedAhead } from '../alarms/unphased-ahead.ts';
import { lapsedFor, withCheck } from '../facts/checks.ts';
import { placedTrains } from '../facts/standing.ts';
import type { InputOf } from '../input.ts';
import { type Done, done } from '../ruling.ts';
import { type World, withRecord, withState } from '../world.ts';

function askedAgain(world: World): Done {
  return done(world, {
    raised: unphasedAhead(world).map((about) => ({ code: 'unphased-ahead', about, train: null })),
  });
}

/** The latest check of a pair replaces the former one. */
export function phaseMeasured(world: World, input: InputOf<'phase-measured'>, at: number): Done {
  const { a, b, voltsA, voltsB, voltsAcross } = input;
  const check = { a, b, voltsA, voltsB, voltsAcross, at, lapsed: false };
  return askedAgain(withState(world, { checks: withCheck(world.state.checks, check) }));
}

/** The phase checks of a supply lapse when its plug was out. */
export function supplyReplugged(world: World, { supply }: InputOf<'supply-replugged'>): Done {
  return askedAgain(withState(world, { checks: lapsedFor(world.state.checks, supply) }));
}

const onSupply = ({ railroad }: World, cab: string | null, supply: SupplyId): boolean =>
  railroad.document.throttles.some((throttle) => throttle.id === cab && throttle.supply === supply);

/** Its blocks are dead; whether its engines go ahead or back when the power comes again is not known. */
export function breakerTripped(world: World, { supply }: InputOf<'breaker-tripped'>): Done {
  let next = withState(world, { tripped: [...new Set([...world.state.tripped, supply])] });
  for (const [id, train] of placedTrains(world))
    if (onSupply(world, train.cab, supply)) next = withRecord(next, 'trains', id, { motionUnknown: true });
  return done(next, { raised: [{ code: 'breaker', about: [supply], train: null }] });
}

export function breakerReset(world: World, { supply }: InputOf<'breaker-reset'>): Done {
  return done(withState(world, { tripped: world.state.tripped.filter((other) => other !== supply) }));
}
