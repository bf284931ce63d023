/** Which track a train lies on. */
import type { NodeId } from '../ids.ts';
import type { Millimetres } from '../units.ts';
import type { TurnoutPosition } from './document.ts';
import type { Railroad } from './railroad.ts';
import { onwardAsSet, type Spot, turned } from './travel.ts';

const edgeLength = (railroad: Railroad, spot: Spot): Millimetres =>
  railroad.edges.get(spot.edge)?.length ?? 0;

/**
 * The spots under a train: from the head back, while what lies ahead of an edge is shorter than the train. A tail exactly at a gap is
 * clear of the edge behind it; the edge of the head is always under the train.
 *
 * @param trail directed edges, head first; the head is at the `toward` end of the first
 * @param lengthMm the train's length
 * @returns the front part of the trail; all of it where it is too short to hold the train
 */
export function underTrain(
  railroad: Railroad,
  trail: readonly Spot[],
  lengthMm: Millimetres,
): readonly Spot[] {
  let ahead = 0;
  let count = 0;
  for (const spot of trail) {
    if (count > 0 && ahead >= lengthMm) break;
    ahead += edgeLength(railroad, spot);
    count += 1;
  }
  return trail.slice(0, count);
}

/**
 * Lays a train back from its head along the turnouts as they stand.
 *
 * @param head where the head is: at the `toward` end of its edge
 * @param lengthMm the train's length
 * @param positionOf how each turnout (or crossing with slips) stands
 * @returns the trail under the train, head first, every spot facing as the train does; undefined when it does not fit: it would hang
 *   over an end of track, lie over a turnout set against it, on dead track, or on its own head
 */
export function layBack(
  railroad: Railroad,
  head: Spot,
  lengthMm: Millimetres,
  positionOf: (node: NodeId) => TurnoutPosition,
): readonly Spot[] | undefined {
  if (!railroad.blockOfEdge.has(head.edge)) return undefined;
  const trail: Spot[] = [head];
  let last = head;
  for (let ahead = edgeLength(railroad, head); ahead < lengthMm; ahead += edgeLength(railroad, last)) {
    const behind = onwardAsSet(railroad, turned(railroad, last), positionOf);
    if (behind === undefined || !railroad.blockOfEdge.has(behind.edge)) return undefined;
    last = turned(railroad, behind);
    if (trail.some((spot) => spot.edge === last.edge)) return undefined;
    trail.push(last);
  }
  return trail;
}
