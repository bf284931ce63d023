/** Reports of the supplies: phase checks, replugging, breakers. */
import type { SupplyId } from '../../ids.ts';
import { unphasedAhead } from '../alarms/unphased-ahead.ts';
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
  const others = world.state.checks.filter(
    (check) => !(check.a === a && check.b === b) && !(check.a === b && check.b === a),
  );
  return askedAgain(
    withState(world, { checks: [...others, { a, b, voltsA, voltsB, voltsAcross, at, lapsed: false }] }),
  );
}

/** The phase checks of a supply lapse when its plug was out. */
export function supplyReplugged(world: World, { supply }: InputOf<'supply-replugged'>): Done {
  const checks = world.state.checks.map((check) =>
    check.a === supply || check.b === supply ? { ...check, lapsed: true } : check,
  );
  return askedAgain(withState(world, { checks }));
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
