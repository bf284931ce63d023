/** The sentences of `not-now`: what is not ready for an order, and what would make it so. */
import type { AuthorityId, BlockId, ThrottleId, TrainId } from '../../ids.ts';
import type { SessionPhase } from '../state.ts';
import type { World } from '../world.ts';

const PHASES: Readonly<Record<SessionPhase, string>> = {
  before: 'no evening is open yet',
  'making-up': 'the evening is still being made up: start it first',
  running: 'the evening runs already',
  stopped: 'all is stopped: until it runs again only what mends is carried out',
  ended: 'the evening has ended',
};

/** A train, by what is missing of it. */
function ofTrain({ railroad, state }: World, id: TrainId): string | null {
  const train = state.trains[id];
  if (train === undefined) return null;
  const { name, placed, cab, coupledInto, derailed, lost } = train;
  if (coupledInto !== null)
    return `${name} is coupled to ${state.trains[coupledInto]?.name ?? coupledInto}: it is called by that name`;
  if (!placed) return `${name} is not on the track: say where it stands`;
  if (derailed) return `${name} is off the rails: say first that it is rerailed`;
  if (lost) return `it is not known where ${name} stands: say where`;
  if (cab === null) return `${name} has no cab`;
  if (state.cabs[cab]?.person == null)
    return `nobody has ${railroad.throttles.get(cab)?.name ?? cab}, the cab of ${name}`;
  return null;
}

function ofAuthority({ state }: World, id: AuthorityId): string | null {
  if (!/^a\d+$/.test(id)) return null;
  const authority = state.authorities[id];
  if (authority === undefined) return `there is no authority ${id}`;
  const name = state.trains[authority.train]?.name ?? authority.train;
  if (authority.state === 'fulfilled' || authority.state === 'annulled')
    return `authority ${id} of ${name} is ${authority.state}`;
  if (authority.kind === 'limits') return `${name} has working limits: it reports clear of them first`;
  return authority.legs.some(({ readBack }) => !readBack)
    ? `authority ${id} of ${name} is not read back`
    : `authority ${id} of ${name} is in force`;
}

/**
 * What is not ready, as a sentence without its full stop.
 *
 * @param id what the refusal is about; absent: the state of the session
 * @param called how a thing is called in a sentence
 */
export function notNowWords(world: World, id: string | undefined, called: (id: string) => string): string {
  const { state } = world;
  if (id === undefined) return PHASES[state.phase];
  const cab = state.cabs[id as ThrottleId];
  if (cab !== undefined && cab.person === null) return `nobody has ${called(id)}`;
  const block = state.blocks[id as BlockId];
  if (block !== undefined && block.state !== 'disputed') return `${called(id)} is not disputed`;
  return (
    ofTrain(world, id as TrainId) ??
    ofAuthority(world, id as AuthorityId) ??
    `${called(id)} is not ready for that`
  );
}
