/** How far trains went by the reports: the edges that the head came into. Running inside limits is not reported, so it is left out. */
import type { EdgeId, TrainId } from '../ids.ts';
import type { Railroad } from '../railroad/railroad.ts';
import type { SessionInput } from '../session/input.ts';
import type { SessionState, TrainNow } from '../session/state.ts';
import { type Millimetres, scaleMileMm } from '../units.ts';

const MOVING: ReadonlySet<string> = new Set(['train-entered', 'advance']);

/** The edges in front of where the head was, up to where it is; none where the way between is not known. */
function edgesBetween(before: TrainNow, after: TrainNow): readonly EdgeId[] {
  const old = before.trail[0];
  if (old === undefined) return [];
  const from = after.trail.findIndex(({ edge, toward }) => edge === old.edge && toward === old.toward);
  return after.trail.slice(0, Math.max(0, from)).map(({ edge }) => edge);
}

/** A train that an input moved, and the edges that its head came into, the last first. */
export interface Entered {
  readonly id: TrainId;
  readonly edges: readonly EdgeId[];
}

/** The trains that an input moved; placing and correcting a train is no distance. */
export function edgesEntered(
  before: SessionState,
  after: SessionState,
  input: SessionInput,
): readonly Entered[] {
  if (!MOVING.has(input.do) || before.trains === after.trains) return [];
  return (Object.entries(after.trains) as [TrainId, TrainNow][]).flatMap(([id, train]) => {
    const was = before.trains[id];
    const edges = was === undefined || was === train ? [] : edgesBetween(was, train);
    return edges.length === 0 ? [] : [{ id, edges }];
  });
}

/** Length of some edges together. */
export const lengthOf = (railroad: Railroad, edges: readonly EdgeId[]): Millimetres =>
  edges.reduce((sum, edge) => sum + (railroad.edges.get(edge)?.length ?? 0), 0);

/** Scale miles of a length on the model: at 1:48 a scale mile is 110 ft (NMRA S-1.2 ratio, 5280 ft / 48). */
export const scaleMiles = (lengthMm: Millimetres, scaleRatio: number): number =>
  lengthMm / scaleMileMm(scaleRatio);

/** Scale kilometres of a length on the model: a kilometre is 1,000,000 mm, divided by N of 1:N. */
export const scaleKilometres = (lengthMm: Millimetres, scaleRatio: number): number =>
  (lengthMm * scaleRatio) / 1_000_000;
