/** Which ends of track at turnouts and crossings are drawn parted, because nothing passes there as they stand. */
import type { EdgeId } from '../../shared-model/ids.ts';
import type { CrossingNode, TurnoutNode, TurnoutPosition } from '../../shared-model/railroad/document.ts';

/** The leg that a turnout is not set to. */
export const partedLeg = (turnout: TurnoutNode, position: TurnoutPosition): EdgeId =>
  position === 'normal' ? turnout.reverse : turnout.normal;

/**
 * The edges that end at a crossing as it stands: none of a plain one, of one with slips those that are on no slip while it stands reverse;
 * of an insulated one the second way, since the ways are apart electrically.
 */
export function partedAtCrossing(crossing: CrossingNode, position: TurnoutPosition): readonly EdgeId[] {
  const passed = new Set((crossing.slips ?? []).flat());
  if (crossing.slips !== undefined && position === 'reverse')
    return crossing.ways.flat().filter((edge) => !passed.has(edge));
  return crossing.insulated ? crossing.ways[1] : [];
}
