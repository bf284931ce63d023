/** How far trains went by the reports: the sum of the edges that the head came into. Running inside limits is not reported, so it is left out. */
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionInput } from '../session/input.ts';
import type { SessionState, TrainNow } from '../session/state.ts';
import { type Millimetres, scaleMileMm } from '../units.ts';

const MOVING: ReadonlySet<string> = new Set(['train-entered', 'advance']);

/** The edges in front of where the head was, up to where it is; none where the way between is not known. */
function enteredMm(railroad: Railroad, before: TrainNow, after: TrainNow): Millimetres {
  const old = before.trail[0];
  if (old === undefined) return 0;
  const from = after.trail.findIndex(({ edge, toward }) => edge === old.edge && toward === old.toward);
  return after.trail
    .slice(0, Math.max(0, from))
    .reduce((sum, { edge }) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);
}

/** The trains that an input moved, and how far each; placing and correcting a train is no distance. */
export function distanceEntered(
  railroad: Railroad,
  before: SessionState,
  after: SessionState,
  input: SessionInput,
): readonly { readonly id: string; readonly distanceMm: Millimetres }[] {
  if (!MOVING.has(input.do)) return [];
  const earlier = new Map(Object.entries(before.trains));
  return Object.entries(after.trains).flatMap(([id, train]) => {
    const was = earlier.get(id);
    const distanceMm = was === undefined || was === train ? 0 : enteredMm(railroad, was, train);
    return distanceMm === 0 ? [] : [{ id, distanceMm }];
  });
}

/** Scale miles of a length on the model: at 1:48 a scale mile is 110 ft (NMRA S-1.2 ratio, 5280 ft / 48). */
export const scaleMiles = (lengthMm: Millimetres, scaleRatio: number): number =>
  lengthMm / scaleMileMm(scaleRatio);
