/** The trains of an evening in one order, whatever order the state was read in: the document's, then those of tonight. */
import type { TrainId } from '../../shared-model/ids.ts';
import type { Railroad } from '../../shared-model/railroad/railroad.ts';
import type { SessionState, TrainNow } from '../../shared-model/session/state.ts';

export function trainsInOrder({
  railroad,
  state,
}: {
  readonly railroad: Railroad;
  readonly state: SessionState;
}): readonly [TrainId, TrainNow][] {
  const place = new Map(railroad.document.trains.map(({ id }, index) => [id, index]));
  const placeOf = (id: TrainId): number => place.get(id) ?? place.size;
  return (Object.entries(state.trains) as [TrainId, TrainNow][]).toSorted(
    ([one], [other]) => placeOf(one) - placeOf(other) || (one < other ? -1 : 1),
  );
}
