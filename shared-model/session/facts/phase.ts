/** Whether two throttles may be joined through a train: same supply, in phase, not in phase, or not known. */
import type { ThrottleId } from '../../ids.ts';
import { type PhaseGroups, phaseGroups } from '../../power/phase-groups.ts';
import type { PhaseCheckNow } from '../state.ts';
import type { World } from '../world.ts';

const groups = new WeakMap<readonly PhaseCheckNow[], PhaseGroups>();

export type PhaseFact = 'in-phase' | 'unphased-gap' | 'phase-unknown';

/** What the checks of tonight say about two throttles; a code where a train may not join them. */
export function phaseFact({ railroad, state }: World, a: ThrottleId, b: ThrottleId): PhaseFact {
  const supplyA = railroad.throttles.get(a)?.supply;
  const supplyB = railroad.throttles.get(b)?.supply;
  if (supplyA === undefined || supplyB === undefined) throw new Error(`no throttle ${a} or ${b}`);
  const known = groups.get(state.checks) ?? phaseGroups(state.checks);
  groups.set(state.checks, known);
  const relation = known.relation(supplyA, supplyB);
  if (relation === 'same' || relation === 'in-phase') return 'in-phase';
  return relation === 'unknown' ? 'phase-unknown' : 'unphased-gap';
}

/** The supply of a throttle. */
export function supplyOf({ railroad }: World, throttle: ThrottleId): string {
  const supply = railroad.throttles.get(throttle)?.supply;
  if (supply === undefined) throw new Error(`no throttle ${throttle}`);
  return supply;
}
