/** A train that changes ends: its front is where its rear was, and its head counts as at the next gap or end that way. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { Railroad } from '../../../shared-model/railroad/railroad.ts';
import { isStop, onwardAsSet, type Spot, turned } from '../../../shared-model/railroad/travel.ts';
import { underTrain } from '../../../shared-model/railroad/under-train.ts';
import type { SessionState } from '../../../shared-model/session/state.ts';

/** @returns where its head then is; null while its place is unknown or no track leads on from its rear */
export function changedEnds(
  { railroad, state }: { readonly railroad: Railroad; readonly state: SessionState },
  id: TrainId,
): Spot | null {
  const train = state.trains[id];
  if (train === undefined || !train.placed || train.lost) return null;
  const rear = underTrain(railroad, train.trail, train.length).at(-1);
  if (rear === undefined) return null;
  let spot = turned(railroad, rear);
  for (let steps = railroad.edges.size; steps > 0 && !isStop(railroad, spot.toward); steps -= 1) {
    const next = onwardAsSet(railroad, spot, (node) => state.turnouts[node]?.position ?? 'normal');
    if (next === undefined) return null;
    spot = { edge: next.edge, toward: next.toward };
  }
  return isStop(railroad, spot.toward) ? spot : null;
}
