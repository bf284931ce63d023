/** A knob, a toggle or a turnout as it stands: thrown, or found to stand there. */

import { dispute, type Happening, raiseAtKnob } from './alarms.ts';
import { addReason, type State, type World } from './state.ts';
import { sure } from './sure.ts';
import { blockOfPassage } from './track.ts';
import { locksOn, wrongFor } from './views.ts';

/** Throws one thing, by an order or as a report says. */
export function put(state: State, kind: string, id: string, to: string | boolean): void {
  if (kind === 'selector') state.selectors[id] = String(to);
  if (kind === 'toggle') state.toggles[id] = to === true;
  if (kind === 'turnout') state.turnouts[id] = to as 'normal' | 'reverse';
  if (!state.shown.includes(id)) state.shown.push(id);
}

/** A knob, toggle or turnout stands there: whatever anybody intended. */
export function report(
  world: World,
  state: State,
  kind: string,
  id: string,
  to: string | boolean,
  happening: Happening,
): void {
  const before = structuredClone(state);
  put(state, kind, id, to);
  if (kind !== 'turnout') {
    raiseAtKnob(world, before, state, id, happening);
    return;
  }
  if (before.turnouts[id] === to) return;
  const [lock] = locksOn(world, before, id).filter((one) => wrongFor(one, sure(state.turnouts[id])));
  if (lock === undefined) return;
  addReason(happening.raised, 'turnout-moved', id);
  dispute(world, before, state, blockOfPassage(world.track, lock.way));
}
