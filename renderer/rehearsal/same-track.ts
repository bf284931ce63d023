/** Whether two railroads have the same track and wiring: trains may differ from evening to evening. */
import type { Railroad } from '../../shared-model/railroad/railroad.ts';

const trackOf = ({ document: { nodes, edges, blocks, selectors, toggles } }: Railroad): string =>
  JSON.stringify([nodes, edges, blocks, selectors, toggles]);

const known = new WeakMap<Railroad, string>();

function knownTrackOf(railroad: Railroad): string {
  const track = known.get(railroad) ?? trackOf(railroad);
  known.set(railroad, track);
  return track;
}

export const isSameTrack = (one: Railroad, other: Railroad): boolean =>
  one === other || knownTrackOf(one) === knownTrackOf(other);
