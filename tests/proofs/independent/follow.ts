/** What follows by itself after each line. */
import { feedOf } from './feed.ts';
import { end, isReadBack } from './grants.ts';
import { stretch } from './movement.ts';
import { ahead, inForce, placed, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { blocksUnder } from './views.ts';

/** Trains that have grown lie on more track, limits become occupied, authorities are fulfilled. */
export function follow(world: World, state: State, stopped: readonly string[]): void {
  for (const train of placed(state)) stretch(world, state, train);
  for (const authority of state.authorities.filter(inForce)) {
    if (authority.kind === 'limits') {
      if (authority.state === 'granted') continue;
      for (const visit of authority.visits)
        if (!authority.occupied.includes(visit.block) && feedOf(world, state, visit.block) === visit.cab)
          authority.occupied.push(visit.block);
      continue;
    }
    const now = sure(state.trains[authority.train]);
    const at = authority.visits[authority.pos];
    if (
      authority.visits.length === 0 &&
      now.known &&
      isReadBack(authority) &&
      stopped.includes(authority.train)
    ) {
      now.trail = [...[...authority.lead].reverse(), ...now.trail];
      authority.lead = [];
      end(authority, 'fulfilled');
    }
    if (authority.state !== 'running' || ahead(authority).length > 0 || !isReadBack(authority)) continue;
    const covered = blocksUnder(world, state, authority.train);
    if (now.blocks.every(({ block }) => block === at?.block || covered.includes(block)))
      end(authority, 'fulfilled');
  }
}
